package run

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// FoundGuess is a pair that is not fired and whose guess is near to a color.
type FoundGuess struct {
	First  string    `json:"first"`
	Second string    `json:"second"`
	Said   string    `json:"said"`
	Away   float64   `json:"away"` // ΔE00 of the guess
	Half   float64   `json:"half"`
	Ninety float64   `json:"ninety"`
	Color  ColorSaid `json:"color"`
}

// guess lists the pairs whose guesses are nearest to a color.
func (f *Found) guess(w tiles.Wall, wanted color.Lab, most int) {
	s := newForesight(w)
	if !s.standing.Speaks {
		f.Silent = s.standing.Why
		return
	}
	for _, t := range s.Toward(wanted, s.open, most) {
		g := s.guess(t.Cell)
		f.Guesses = append(f.Guesses, FoundGuess{
			First: g.Pair.First, Second: g.Pair.Second, Said: g.Said, Away: t.Away,
			Half: g.Half, Ninety: g.Ninety, Color: sayColor(g.Lab, g.Half),
		})
	}
}
