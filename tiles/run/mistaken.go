package run

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/mistaken"
)

// Doubted is a photograph that is likelier of another tile.
type Doubted struct {
	Photo string
	Tile  tiles.Number
	Says  string         // "its first coat is ΔE00 31 from the other tiles of Quarry Milk; tile 14 would fit: is it a photo of that one?"
	Fits  []tiles.Number // tiles it may be of, the likeliest first
}

// Mistaken lists the photographs that are unlike their tile, with those that
// they may be of.
func Mistaken(w tiles.Wall) []Doubted {
	var out []Doubted
	for _, p := range mistaken.Find(w) {
		coat := "its color is"
		switch p.Zone {
		case tiles.ZoneFirst:
			coat = "its first coat is"
		case tiles.ZoneSecond:
			coat = "its second coat is"
		}
		out = append(out, Doubted{p.Photo, p.Tile, fmt.Sprintf("%s ΔE00 %.0f from the other tiles of %s; %s",
			coat, p.DE, w.Glaze(p.Glaze).Name, wouldFit(p.Fits)), p.Fits})
	}
	return out
}

// sayMistaken says it of some photos, a sentence each: «2 again.jpg, kept as
// tile 2: its first coat is ΔE00 31 from …».
func sayMistaken(w tiles.Wall, of func(photo string) bool) []string {
	var out []string
	for _, d := range Mistaken(w) {
		if of(d.Photo) {
			out = append(out, fmt.Sprintf("%s, kept as tile %d: %s", d.Photo, d.Tile, d.Says))
		}
	}
	return out
}

func wouldFit(fits []tiles.Number) string {
	names := make([]string, len(fits))
	for i, n := range fits {
		names[i] = n.String()
	}
	switch len(fits) {
	case 0:
		return "look whether it is a photo of this tile"
	case 1:
		return "tile " + names[0] + " would fit: is it a photo of that one?"
	}
	return "tiles " + english.And(names) + " would fit: is it a photo of one of them?"
}
