package site

import (
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// cautions are what the hand should know before it dips this pair, each thing
// said once: the glazes' own, what the wall's rules say of the pair, and that
// no overlap has been tested for food.
func (m *maker) cautions(h *hung) []string {
	said := glazeCautions(h.first)
	if !h.Single() && !h.Double() {
		said = append(said, glazeCautions(h.second)...)
	}
	if m.Caution != nil {
		for _, reason := range strings.Split(m.Caution(h.Pair), "; ") {
			said = addCaution(said, reason)
		}
	}
	if h.first.Has(tiles.Runny) && h.second.Has(tiles.Runny) && !h.Single() {
		said = append(said, "Both run, and two runny coats run more than either: upper third only.")
	}
	switch {
	case h.Double():
		said = append(said, "Two coats of it: not tested for food.")
	case !h.Single():
		said = append(said, "Where both lie it is a third glaze: not tested for food.")
	}
	return said
}

// traitCautions say what a trait means for the hand. One is left out where the
// teacher's own words for the glaze hold its key word already.
var traitCautions = []struct {
	trait   tiles.Trait
	key     string
	caution string
}{
	{tiles.Runny, "run", "Runs: keep it off the foot, and put a waste slab under the piece."},
	{tiles.Crawls, "crawl", "Crawls: worse over another coat."},
	{tiles.Slick, "slick", "Dries slick: what goes over it may slide off."},
	{tiles.Soluble, "glove", "Holds soluble salts: wear gloves, no second dip in it."},
	{tiles.Colorant, "last", "Holds a strong colorant: dip it last."},
	{tiles.NotFood, "food", "Not for surfaces that touch food."},
}

// glazeWords are a glaze's cautions, the teacher's own words first.
func glazeWords(g tiles.Glaze) []string {
	var words []string
	for _, c := range g.Cautions {
		words = addCaution(words, c)
	}
	own := strings.ToLower(strings.Join(words, " "))
	for _, t := range traitCautions {
		if g.Has(t.trait) && !strings.Contains(own, t.key) {
			words = append(words, t.caution)
		}
	}
	return words
}

// glazeCautions says a glaze's cautions in one line.
func glazeCautions(g tiles.Glaze) []string {
	words := glazeWords(g)
	if len(words) == 0 {
		return nil
	}
	return []string{g.Name + ": " + strings.Join(words, " ")}
}

// addCaution adds a sentence unless it stands there already, alone or as a
// part of another.
func addCaution(said []string, s string) []string {
	s = english.Sentence(s)
	if s == "" || strings.Contains(strings.ToLower(strings.Join(said, " ")), strings.ToLower(s)) {
		return said
	}
	return append(said, s)
}
