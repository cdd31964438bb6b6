package site

import "github.com/twodip/twodip/tiles/color"

// colorName is a color in words, as sure as its doubt lets it be.
func colorName(c color.Lab, doubt float64) string { return color.Describe(c, doubt) }

// colorWords is the tile's color in words, with its doubt.
func (h *hung) colorWords() string {
	if !h.read {
		return ""
	}
	return color.Name(h.lab, 3) + ", " + doubtWords(h.reading.Doubt)
}

// family is the color's coarse name, one of a dozen, to group and filter by.
func family(c color.Lab) string { return color.Name(c, 1) }
