package site

import (
	"encoding/json"
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/foresee"
)

// GuessView is the guess of a pair that is not fired. It is hatched, and the
// word stands by it wherever it is shown.
type GuessView struct {
	Hex   string
	Short string // "guess: green", where there is little room
	Says  string // "guess: dull green"
	Trust string // how far such guesses were off
}

// GuessedView is a fired pair's color beside what was guessed before.
type GuessedView struct {
	Guess GuessView
	Tile  Swatch
	Came  string
}

// guesses is what the site shows of guesses.
type guesses struct {
	*foresee.Wall
	radius foresee.Radius
	kept   map[foresee.Cell]foresee.Kept // what was guessed before it was fired
	record []foresee.Kept
}

// foresee gets the guesses ready, where they may be shown.
func (m *maker) foresee() error {
	if m.Foresee == nil {
		return nil
	}
	st := m.Foresee.Standing()
	if !st.Speaks {
		return nil
	}
	m.guesses = &guesses{Wall: m.Foresee, radius: st.Radius, kept: map[foresee.Cell]foresee.Kept{}, record: m.Foresee.Record()}
	for _, k := range m.guesses.record {
		m.guesses.kept[foresee.Cell{First: k.Pair.First, Second: k.Pair.Second}] = k
	}
	return nil
}

// guessed is the guess of a pair that may be made and has no reading; ok =
// there is one.
func (m *maker) guessed(p tiles.Pair) (color.Lab, bool) {
	if m.guesses == nil || m.Skipped != nil && m.Skipped(p) != "" {
		return color.Lab{}, false
	}
	c, ok := m.guesses.Cell(p)
	if !ok || m.guesses.Fired(c) || m.Wall.Glaze(p.First).Retired || m.Wall.Glaze(p.Second).Retired {
		return color.Lab{}, false
	}
	if h, ok := m.own[p.Key()]; ok && h.Status != tiles.Planned {
		return color.Lab{}, false // it is in the kiln, broken or left out
	}
	return m.guesses.Guess(c.First, c.Second), true
}

// guess is how a pair's guess is shown; none or one.
func (m *maker) guess(p tiles.Pair) []GuessView {
	c, ok := m.guessed(p)
	if !ok {
		return nil
	}
	return []GuessView{guessView(c, m.guesses.radius)}
}

func guessView(c color.Lab, r foresee.Radius) GuessView {
	hex, _ := c.Hex()
	return GuessView{Hex: hex, Short: "guess: " + family(c), Says: "guess: " + colorName(c, r.Half), Trust: trust(r)}
}

// trust says how far such guesses were off on this wall.
func trust(r foresee.Radius) string {
	return fmt.Sprintf("half of such guesses on this wall were within %.0f, nine of ten within %.0f", r.Half, r.Ninety)
}

// foretold is a fired pair's color beside what was guessed before it was fired;
// none or one.
func (m *maker) foretold(h *hung) []GuessedView {
	if m.guesses == nil || !h.read || !h.Own() {
		return nil
	}
	c, _ := m.guesses.Cell(h.Pair)
	k, ok := m.guesses.kept[c]
	if !ok || h.Single() || h.Double() {
		return nil
	}
	return []GuessedView{{
		Guess: guessView(k.Guess, k.Radius),
		Tile:  swatch(h.lab, h.reading.Class),
		Came:  fmt.Sprintf("came out: %s, ΔE00 %.1f from the guess", colorName(h.lab, h.reading.Doubt), k.Away),
	}}
}

// legend says what the hatched places of the wall are; none or one.
func (m *maker) legend() []string {
	if m.guesses == nil {
		return nil
	}
	return []string{"Hatched, with a dashed edge: not fired. What stands there is a guess from the fired tiles; " + trust(m.guesses.radius) + " (ΔE00). Only a fired tile tells."}
}

// findForm is the form that finds tiles, with a box that asks for guesses
// where there are any.
func (m *maker) findForm() FindView {
	v := m.findView()
	if m.guesses != nil {
		v.Guesses = []string{trust(m.guesses.radius)}
	}
	return v
}

// guessScript is the guesses for the search by color. They are no data of the
// wall: they stand in a script of their own, apart from the columns.
func (m *maker) guessScript() error {
	if m.guesses == nil {
		return nil
	}
	var all struct {
		Trust  string   `json:"trust"`
		First  []int    `json:"first"`
		Second []int    `json:"second"`
		Guess  []int    `json:"guess"` // CIELAB in hundredths, three a pair
		Hex    []string `json:"hex"`
		Says   []string `json:"says"`
	}
	all.Trust = trust(m.guesses.radius)
	for i, a := range m.glaze {
		for j, b := range m.glaze {
			p := tiles.Pair{First: a.Code, Second: b.Code}
			if c, ok := m.guessed(p); ok {
				v := guessView(c, m.guesses.radius)
				all.First, all.Second = append(all.First, i), append(all.Second, j)
				all.Guess = append(all.Guess, hundredths(c)...)
				all.Hex, all.Says = append(all.Hex, v.Hex), append(all.Says, v.Says)
			}
		}
	}
	data, err := json.Marshal(all)
	if err != nil {
		return err
	}
	return m.out.write(guessFile, slices.Concat([]byte("twodip.guesses="), data, []byte(";\n"), m.look.scripts[guessFile]))
}

// guessFile is the script of the guesses below the site.
const guessFile = "guesses.js"

// findScripts are the scripts of a page that finds tiles.
func (m *maker) findScripts() []string {
	if m.guesses == nil {
		return []string{columnsFile, "find.js"}
	}
	return []string{columnsFile, guessFile, "find.js"}
}
