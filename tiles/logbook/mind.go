package logbook

import (
	"github.com/twodip/twodip/tiles"
)

// Mind says what whoever glazes a piece with the pair must mind, the heaviest
// first; ruled and careful are the wall's rules on the pair, "" = none (common
// practice, no source, but for what the wall says).
func Mind(w tiles.Wall, p tiles.Pair, ruled, careful string) []string {
	var said []string
	glazes := []tiles.Glaze{w.Glaze(p.First)}
	if !p.Single() {
		glazes = append(glazes, w.Glaze(p.Second))
	}
	if ruled != "" {
		said = append(said, "This studio does not fire this pair: "+ruled+". Ask before you glaze.")
	}
	if careful != "" {
		said = append(said, "With care: "+careful+".")
	}
	crawl := 0
	for i, g := range glazes {
		if i == 1 && tiles.SameCode(g.Code, p.First) {
			continue
		}
		if g.Has(tiles.Runny) {
			said = append(said, g.Name+" runs: wipe "+w.Units.Length(25)+" up from the foot.")
		}
		if g.Has(tiles.Crawls) {
			crawl++
		}
		if g.Has(tiles.Soluble) {
			said = append(said, g.Name+" holds soluble salts: gloves on.")
		}
		if g.Has(tiles.NotFood) {
			said = append(said, g.Name+" is not for food or drink.")
		}
	}
	switch {
	case crawl == 2:
		said = append(said, "Both crawl: with care, thin, and the 1st touch-dry.")
	case crawl == 1 && !p.Single() && glazes[1].Has(tiles.Crawls):
		said = append(said, glazes[1].Name+" crawls over a coat: thin, and the 1st touch-dry.")
	}
	if !p.Single() {
		said = append(said, "Two coats make a new glaze: not tested for food.")
	}
	return said
}
