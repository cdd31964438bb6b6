package bench

func driftRoom() room {
	return room{path: "/drift", name: "Drift", file: "drift", wall: true, show: (*Bench).showDrift}
}

// driftPage is what the page shows.
type driftPage struct{}

func (b *Bench) showDrift(a *asked) (any, error) { return driftPage{}, nil }
