package plan

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// NumberPlace is where on a tile its number stays readable through glazing and
// both firings.
type NumberPlace struct {
	Strip bool    // on the bare strip at the foot, on the front
	Tall  float64 // mm the figures may be tall, fired; 0 = no face of the tile stays bare
	Foot  bool    // it has a foot whose underside stays bare
}

// leastFigure is the least height of a figure scratched by hand that still
// reads after firing, in mm (common practice, no source).
const leastFigure = 5

// NumberAt says where the number goes. A dip covers front and back alike, so
// that only what is waxed, wiped or kept out of the glaze stays bare: the strip
// at the foot, and the underside a tile stands on.
func NumberAt(s tiles.Shape) NumberPlace {
	p := NumberPlace{Foot: s.Foot > s.Thickness}
	if tall := s.Bare - 3; tall >= leastFigure {
		p.Strip, p.Tall = true, min(tall, 10)
	}
	return p
}

// Words says where the number goes in one sentence.
func (p NumberPlace) Words(s tiles.Settings) string {
	bare := s.Units.Length(s.Tile.Bare)
	switch {
	case p.Strip && p.Foot:
		return fmt.Sprintf("The number goes on the lowest %s of the front, which stay bare, in figures %s tall, and once more under the foot. Front and back are glazed everywhere else.", bare, s.Units.Length(p.Tall))
	case p.Strip:
		return fmt.Sprintf("The number goes on the lowest %s of the front, which stay bare, in figures %s tall, and once more on the back of that strip. Front and back are glazed everywhere else.", bare, s.Units.Length(p.Tall))
	case p.Foot:
		return fmt.Sprintf("The number goes under the foot: the bare strip of %s is too low for figures, and front and back are glazed.", bare)
	}
	return fmt.Sprintf("This tile has no bare place for a number: front and back are glazed, and the bare strip of %s is too low. Scratch the number deep into the back, so that it reads through the glaze, or leave %s bare (tile: bare in wall.yaml).", bare, s.Units.Length(leastFigure+4))
}
