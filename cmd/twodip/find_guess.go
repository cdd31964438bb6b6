package main

import (
	"strconv"

	"github.com/twodip/twodip/tiles/run"
)

// showFoundGuesses writes the nearest guesses, under the tiles and apart from
// them: nothing of it has been in a kiln.
func (a *app) showFoundGuesses(r run.Found) {
	if r.Silent != "" {
		a.step("\nno guesses: %s", r.Silent)
	}
	if len(r.Guesses) == 0 {
		return
	}
	a.step("\nnot fired, guessed; half of such guesses on this wall were within %.0f, nine of ten within %.0f:", r.Guesses[0].Half, r.Guesses[0].Ninety)
	rows := [][]string{{"away", "", "glazes", "guess in words"}}
	for _, g := range r.Guesses {
		rows = append(rows, []string{strconv.FormatFloat(g.Away, 'f', 1, 64), "guess", printable(g.Said), g.Color.Words})
	}
	widths := widest(rows)
	for _, row := range rows {
		a.step("%s", aligned(row, widths))
	}
}
