package color

import (
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles/color/munsell"
)

// mostNames is how many names people can hold against each other.
const mostNames = 3

// Describe is the color in words, for a person who does not see it: its name
// or, where the doubt (± ΔE00, 0 = none) leaves several open, up to three with
// "or" between them, then its lightness where the name does not say it. The
// surer the reading, the finer the name: "grayish blue or pale blue, middle
// lightness", but "blue or purple, dark" where that is all that is known.
func Describe(c Lab, doubt float64) string {
	var blocks []munsell.Block
	if doubt > 0 {
		blocks = blocksWithin(c, doubt)
	}
	own := c.Munsell().Block()
	said := fitting(own, blocks)
	words, light := either(said), Lightness(c.L)
	if words == "black" || words == "white" || all(said, light) {
		return words
	}
	return words + ", " + light
}

// fitting is the finest names of which three or fewer leave little unsaid, or
// else the three likeliest coarse ones.
func fitting(own munsell.Block, blocks []munsell.Block) (said []string) {
	for level := munsell.Fine; level >= munsell.Coarse; level-- {
		name := func(b munsell.Block) string { return plain(b, level) }
		said = ranked(own, blocks, name)
		if len(said) <= mostNames && unsaid(said, blocks, name) <= mostUnsaid {
			return said
		}
	}
	return said[:min(len(said), mostNames)]
}

// mostUnsaid is the share of the doubt that names may leave out.
const mostUnsaid = 0.25

// unsaid is the share of the blocks that have none of the names.
func unsaid(said []string, blocks []munsell.Block, name func(munsell.Block) string) float64 {
	n := 0
	for _, b := range blocks {
		if !slices.Contains(said, name(b)) {
			n++
		}
	}
	return float64(n) / float64(max(1, len(blocks)))
}

// plain is the block's name at a level, but never calls a tinted white, gray
// or black by its tint alone: "purplish white" belongs to "purple" in the
// system, which would mislead whoever looks for a purple glaze.
func plain(b munsell.Block, level int) string {
	fine, name := b.Name(munsell.Fine), b.Name(level)
	if level == munsell.Fine {
		return name
	}
	for _, grey := range [...]string{"white", "gray", "black"} {
		if strings.HasSuffix(fine, grey) && name != grey {
			return "near " + grey
		}
	}
	return name
}

// either joins names: "red", "red or brown", "red, brown or orange".
func either(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

func all(names []string, word string) bool {
	return !slices.ContainsFunc(names, func(s string) bool { return !strings.Contains(s, word) })
}

// Lightness is L* in words, in five equal steps.
func Lightness(l float64) string {
	switch {
	case l < 20:
		return "very dark"
	case l < 40:
		return "dark"
	case l < 60:
		return "middle lightness"
	case l < 80:
		return "light"
	}
	return "very light"
}
