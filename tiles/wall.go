package tiles

// Wall is one teacher's wall, joined from its files.
type Wall struct {
	Settings
	Glazes   []Glaze
	Tiles    []Tile
	Readings []Reading
	Hand     []ByHand // what people have set for single photos
}

// Glaze returns the glaze with the code; one that is no longer in the list
// comes back with its code for a name, so that its tiles can still be shown.
func (w Wall) Glaze(code string) Glaze {
	if g, ok := FindGlaze(w.Glazes, code); ok {
		return g
	}
	return Glaze{Code: code, Name: code, Retired: true}
}

// Tile returns the tile with the number.
func (w Wall) Tile(n Number) (Tile, bool) { return FindTile(w.Tiles, n) }

// Own returns the wall's own tile of the pair: neither a repeat nor retired
// while another is there.
func (w Wall) Own(p Pair) (Tile, bool) {
	var last Tile
	found := false
	for _, t := range w.Tiles {
		if !t.Own() || !t.Pair.Same(p) {
			continue
		}
		if t.Status != Retired {
			return t, true
		}
		last, found = t, true
	}
	return last, found
}

// Say says the pair by name, always with the arrow:
// "1st Quarry Milk → 2nd Lamp Rust".
func (w Wall) Say(p Pair) string {
	first := "1st " + Apart(w.Glaze(p.First).Name)
	switch {
	case p.Single():
		return first + " alone"
	case p.Double():
		return first + " → 2nd " + Apart(w.Glaze(p.Second).Name) + " again"
	}
	return first + " → 2nd " + Apart(w.Glaze(p.Second).Name)
}
