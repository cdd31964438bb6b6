package bench

func sheetsRoom() room {
	return room{path: "/sheets", name: "Sheets", file: "sheets", wall: true, show: (*Bench).showSheets}
}

// sheetsPage is what the page shows.
type sheetsPage struct{}

func (b *Bench) showSheets(a *asked) (any, error) { return sheetsPage{}, nil }
