package run

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/mistaken"
)

// Mistaken says of the photographs that are unlike their tile which they may be
// of: «2 again.jpg, kept as tile 2: its first coat is ΔE00 31 from Quarry Milk;
// tiles 14 and 26 would fit». One sentence a photo.
func Mistaken(w tiles.Wall) []string { return sayMistaken(w, func(string) bool { return true }) }

// sayMistaken says it of some photos.
func sayMistaken(w tiles.Wall, of func(photo string) bool) []string {
	var out []string
	for _, p := range mistaken.Find(w) {
		if !of(p.Photo) {
			continue
		}
		coat := "its color is"
		switch p.Zone {
		case tiles.ZoneFirst:
			coat = "its first coat is"
		case tiles.ZoneSecond:
			coat = "its second coat is"
		}
		out = append(out, fmt.Sprintf("%s, kept as tile %d: %s ΔE00 %.0f from the other tiles of %s; %s",
			p.Photo, p.Tile, coat, p.DE, w.Glaze(p.Glaze).Name, wouldFit(p.Fits)))
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
