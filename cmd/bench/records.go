package bench

func recordsRoom() room {
	return room{path: "/records", name: "Records", file: "records", wall: true, show: (*Bench).showRecords}
}

// recordsPage is what the page shows.
type recordsPage struct{}

func (b *Bench) showRecords(a *asked) (any, error) { return recordsPage{}, nil }
