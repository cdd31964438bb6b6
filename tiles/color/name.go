package color

import (
	"slices"

	"github.com/twodip/twodip/tiles/color/munsell"
)

// illuminantC is the light Munsell's chips are specified in. Source: CIE
// 15:2004, table T.3.
var (
	illuminantC = WhiteXYZ(0.31006, 0.31616)
	toC         = Adaptation(D50, illuminantC)
)

// Munsell is the color's Munsell notation: adapted from D50 to illuminant C
// (Bradford), then found in the renotation.
func (c Lab) Munsell() munsell.Notation {
	d50 := c.XYZ()
	x, y, z := toC.Times(d50.X, d50.Y, d50.Z)
	sum := x + y + z
	if !(sum > 1e-9 && c.Real()) { // black, or no color: the hue means nothing
		return munsell.Notation{}
	}
	return munsell.Of(x/sum, y/sum, y)
}

// Name is the color's name in the ISCC–NBS system, lower case: level 1 is one
// of 13 ("blue"), 2 of 29 ("purplish blue"), 3 of 267 ("deep purplish blue").
func Name(c Lab, level int) string { return c.Munsell().Block().Name(level) }

// Names is every name a color known to ± doubt ΔE00 may well have: its own
// first, then those that cover a tenth or more of the doubt, the likeliest
// first.
func Names(c Lab, doubt float64, level int) []string {
	own := c.Munsell().Block()
	at := func(b munsell.Block) string { return b.Name(level) }
	if !(doubt > 0) {
		return []string{at(own)}
	}
	return ranked(own, blocksWithin(c, doubt), at)
}

// ranked is the name of the own block, then every other that names a tenth or
// more of the blocks, the most frequent first.
func ranked(own munsell.Block, blocks []munsell.Block, name func(munsell.Block) string) []string {
	count := map[string]int{}
	out := []string{name(own)}
	for _, b := range blocks {
		said := name(b)
		count[said]++
		if !slices.Contains(out, said) {
			out = append(out, said)
		}
	}
	others := slices.DeleteFunc(out[1:], func(s string) bool { return 10*count[s] < len(blocks) })
	slices.SortStableFunc(others, func(a, b string) int { return count[b] - count[a] })
	return out[:1+len(others)]
}
