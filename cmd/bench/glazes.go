package bench

func glazesRoom() room {
	return room{path: "/glazes", name: "Glazes", file: "glazes", wall: true, show: (*Bench).showGlazes}
}

// glazesPage is what the page shows.
type glazesPage struct{}

func (b *Bench) showGlazes(a *asked) (any, error) { return glazesPage{}, nil }
