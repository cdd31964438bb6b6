package main

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"unicode"

	"github.com/rivo/uniseg"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/run"
)

// showFound writes the nearest tiles as a table, the nearest first.
func (a *app) showFound(r run.Found) {
	swatch := a.swatches()
	a.step("%slab(%.1f %.1f %.1f), on a screen %s: %s", swatch(r.Color), r.Color.L, r.Color.A, r.Color.B, r.Color.Hex, r.Color.Words)
	if !r.Color.Shown {
		a.step("an ordinary screen cannot show that color: %s is paler, of the same lightness and hue", r.Color.Hex)
	}
	if r.Photo != "" {
		a.step("from %s%s, ± %.0f (%s)%s", printable(r.Photo), ofTile(r.Shows), r.Doubt, r.Class, unsure(r.Class))
	}
	for _, note := range r.Notes {
		a.step("note: %s", note)
	}
	a.step("")
	rows := [][]string{{"away", "tile", "", "glazes", "doubt", "color in words"}}
	for _, f := range r.Tiles {
		rows = append(rows, []string{awaySaid(f), f.Tile.String(), f.By, printable(f.Said), doubtSaid(f), f.Color.Words})
	}
	widths := widest(rows)
	for i, row := range rows {
		patch := swatch(r.Color)
		if i > 0 {
			patch = swatch(r.Tiles[i-1].Color)
		} else {
			patch = strings.Repeat(" ", visible(patch))
		}
		a.step("%s", patch+aligned(row, widths))
	}
	said := func(mark string) func(run.FoundTile) bool {
		return func(f run.FoundTile) bool { return sameMark(f) == mark }
	}
	if slices.ContainsFunc(r.Tiles, said("= ")) {
		a.step("\n= the same color, as far as the photos can tell")
	}
	if slices.ContainsFunc(r.Tiles, said("? ")) {
		a.step("\n? perhaps the same color: these photos cannot tell")
	}
}

// sameMark marks a color that is away by less than the photos can tell; not as
// the same one where a person would see the difference.
func sameMark(f run.FoundTile) string {
	switch {
	case !f.Same:
		return ""
	case f.Away < color.Evident:
		return "= "
	}
	return "? "
}

// ofTile says that the photo is of one of the wall's own tiles.
func ofTile(n tiles.Number) string {
	if n == 0 {
		return ""
	}
	return ", which shows tile " + n.String()
}

// unsure warns where nothing but the camera stands behind a color.
func unsure(c tiles.Class) string {
	if c == tiles.ClassCamera {
		return ": good for browsing, not for matching"
	}
	return ""
}

// awaySaid is ΔE00, marked where it is inside the doubt.
func awaySaid(f run.FoundTile) string { return sameMark(f) + fmt.Sprintf("%.1f", f.Away) }

// doubtSaid is how far to trust the tile's color, and what it stands on.
func doubtSaid(f run.FoundTile) string {
	if f.Doubt == 0 {
		return "not known"
	}
	return strings.TrimRight(fmt.Sprintf("± %.1f %s", f.Doubt, f.Class), " ")
}

// numeric columns are set to the right.
var numeric = map[int]bool{0: true, 1: true}

func widest(rows [][]string) []int {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], uniseg.StringWidth(cell))
		}
	}
	return widths
}

// aligned joins a row's cells, each as wide as its column; an empty column
// takes no room.
func aligned(row []string, widths []int) string {
	var cells []string
	for i, cell := range row {
		if widths[i] == 0 {
			continue
		}
		pad := strings.Repeat(" ", widths[i]-uniseg.StringWidth(cell))
		if numeric[i] {
			cell = pad + cell
		} else {
			cell += pad
		}
		cells = append(cells, cell)
	}
	return strings.TrimRight(strings.Join(cells, "  "), " ")
}

// printable drops what would drive the terminal instead of being read.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, s)
}

// swatches gives a color as a colored patch on terminals that show all colors,
// and nothing elsewhere: a patch of a color that is nearly right misleads.
func (a *app) swatches() func(run.ColorSaid) string {
	full := os.Getenv("COLORTERM") == "truecolor" || os.Getenv("COLORTERM") == "24bit"
	if !full || os.Getenv("NO_COLOR") != "" || !isTerminal(a.out) {
		return func(run.ColorSaid) string { return "" }
	}
	return func(c run.ColorSaid) string {
		r, g, b, _ := color.Lab{L: c.L, A: c.A, B: c.B}.Screen()
		return fmt.Sprintf("\x1b[48;2;%d;%d;%dm      \x1b[0m  ", r, g, b)
	}
}

// visible is how wide a swatch is on the screen.
func visible(swatch string) int { return min(len(swatch), 8) }
