package site

import "github.com/twodip/twodip/tiles/color"

// colorName is a color in words, as sure as its doubt lets it be.
func colorName(c color.Lab, doubt float64) string { return color.Describe(c, doubt) }

// family is the color's coarse name, one of a dozen, to group and filter by.
func family(c color.Lab) string { return color.Name(c, 1) }
