package bench

func photosRoom() room {
	return room{path: "/photographs", name: "Photographs", file: "photos", wall: true, show: (*Bench).showPhotos}
}

// photosPage is what the page shows.
type photosPage struct{}

func (b *Bench) showPhotos(a *asked) (any, error) { return photosPage{}, nil }
