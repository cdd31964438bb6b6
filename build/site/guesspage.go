package site

import (
	"fmt"
	"html/template"

	"github.com/twodip/twodip/tiles/chart"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/foresee"
)

// guessPath is the teacher's page of how guesses did.
const guessPath = "guesses.html"

// GuessesView is that page.
type GuessesView struct {
	Frame
	Says      []string
	Plot      template.HTML // "" = nothing to draw
	Surprises []SurpriseView
}

// SurpriseView is a fired pair that nothing on the wall foretold.
type SurpriseView struct {
	Beside Beside
	Guess  GuessView
}

// mostSurprises is how many are shown: a class's time is short.
const mostSurprises = 12

// guessPage makes the page, where guesses are switched on.
func (m *maker) guessPage() error {
	if m.Foresee == nil {
		return nil
	}
	st := m.Foresee.Standing()
	v := GuessesView{Frame: m.frame(guessPath, "How guesses did", "teacher"), Says: []string{english.Sentence(st.Why)}}
	if st.Speaks {
		record, said := m.guesses.record, "Each was guessed from the loads before its own."
		if len(record) == 0 {
			record, said = m.leftOut(st.Radius), "Each was guessed from all the others: no load has been fired yet that could have been guessed before."
		}
		within, ninety := foresee.Held(record)
		v.Says = append(v.Says, fmt.Sprintf("%d pairs, guessed and fired: %d came out within what was said of half of them, %d within what was said of nine in ten. %s", len(record), within, ninety, said))
		v.Plot = template.HTML(chart.Against("Guessed (across) and measured (upwards)", panels(record)).SVG())
		for _, s := range m.Foresee.Surprises()[:min(mostSurprises, len(m.Foresee.Surprises()))] {
			if h, ok := m.by[m.Foresee.Tiles[s.Pair]]; ok {
				v.Surprises = append(v.Surprises, m.surprise(h, s, st.Radius))
			}
		}
	}
	return m.page(guessPath, "guesses.html", v)
}

// leftOut is every fired pair with what the others would have guessed.
func (m *maker) leftOut(r foresee.Radius) []foresee.Kept {
	var all []foresee.Kept
	for k, p := range m.Foresee.Pairs {
		all = append(all, foresee.Kept{Pair: p, Guess: m.Foresee.Outs[k], Away: m.Foresee.Errors[k], Radius: r})
	}
	return all
}

func panels(record []foresee.Kept) []chart.Panel {
	axes := []struct {
		name string
		of   func(color.Lab) float64
	}{
		{"L*", func(c color.Lab) float64 { return c.L }},
		{"a*", func(c color.Lab) float64 { return c.A }},
		{"b*", func(c color.Lab) float64 { return c.B }},
	}
	out := make([]chart.Panel, len(axes))
	for i, axis := range axes {
		out[i].Name = axis.name
		for _, k := range record {
			out[i].Points = append(out[i].Points, chart.Point{X: axis.of(k.Guess), Y: axis.of(k.Pair.Lab), Far: k.Away > k.Radius.Ninety})
		}
	}
	return out
}

func (m *maker) surprise(h *hung, s foresee.Surprise, r foresee.Radius) SurpriseView {
	return SurpriseView{
		Beside: Beside{
			Href: h.Number.PagePath(), Swatch: []Swatch{swatch(h.lab, h.reading.Class)}, Number: h.Number.String(), Coats: h.coats(),
			Says: fmt.Sprintf("came out: %s, ΔE00 %.0f from the guess", colorName(h.lab, 0), s.Away),
		},
		Guess: guessView(s.Guess, r),
	}
}
