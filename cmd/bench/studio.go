package bench

func studioRoom() room {
	return room{path: "/studio", name: "Studio", file: "studio", wall: true, show: (*Bench).showStudio}
}

// studioPage is what the page shows.
type studioPage struct{}

func (b *Bench) showStudio(a *asked) (any, error) { return studioPage{}, nil }
