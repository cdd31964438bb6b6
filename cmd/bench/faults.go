package bench

func faultsRoom() room {
	return room{path: "/faults", name: "What went wrong", file: "faults", wall: true, show: (*Bench).showFaults}
}

// faultsPage is what the page shows.
type faultsPage struct{}

func (b *Bench) showFaults(a *asked) (any, error) { return faultsPage{}, nil }
