package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

func findCommand(a *app) *cobra.Command {
	var most int
	c := &cobra.Command{
		Use:   "find COLOR",
		Short: "The tiles nearest to a color",
		Long: "Lists the tiles whose measured color is nearest to a color, by CIEDE2000.\n" +
			"A mottled tile is found by its color as a whole or by either of its two main colors.\n\n" +
			"COLOR is '#5a7f91' (sRGB) or 'lab(48 -8 -14)' (D50), in quotes.",
		Example: "  twodip find '#5a7f91'\n  twodip find 'lab(48 -8 -14)' --most 5",
		Args:    usageArgs(oneColor),
		RunE: func(_ *cobra.Command, args []string) error {
			if most < 1 {
				return usageError{fmt.Errorf("--most %d: ask for 1 tile or more", most)}
			}
			return a.find(args[0], most)
		},
	}
	c.Flags().IntVar(&most, "most", 12, "how many tiles to list")
	return c
}

func oneColor(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return errors.New("find takes one color, in quotes, such as '#5a7f91' or 'lab(48 -8 -14)'")
	}
	return nil
}

// found is what find says to programs.
type found struct {
	Color colorSaid   `json:"color"`
	Tiles []foundTile `json:"tiles"`
}

// colorSaid is a color in every form a reader may want.
type colorSaid struct {
	L     float64 `json:"l"`
	A     float64 `json:"a"`
	B     float64 `json:"b"`
	Hex   string  `json:"hex"`
	Shown bool    `json:"shown"` // false: sRGB cannot show it, hex is paler
	Words string  `json:"words"`
}

// foundTile is one of the nearest tiles. Away is ΔE00 from the color to the
// tile's mean, or to the one of its main colors that By names.
type foundTile struct {
	Tile   tiles.Number `json:"tile"`
	First  string       `json:"first"`
	Second string       `json:"second"`
	Said   string       `json:"said"`
	Away   float64      `json:"away"`
	By     string       `json:"by"`
	Doubt  float64      `json:"doubt"`
	Class  tiles.Class  `json:"class"`
	Color  colorSaid    `json:"color"`
}

func (a *app) find(what string, most int) error {
	asked, err := color.Parse(what)
	if err != nil {
		return err
	}
	wall, err := a.load()
	if err != nil {
		return err
	}
	shown, readings := measuredTiles(wall)
	if len(shown) == 0 {
		return tiles.Problem{File: "tiles/measured.csv", What: "no tile has a reading yet", Do: "put photos into tiles/photos, then: twodip measure"}
	}
	result := found{Color: sayColor(asked, 0)}
	for _, m := range placesOf(readings).Nearest(asked, most) {
		result.Tiles = append(result.Tiles, sayFound(wall, shown[m.Of], readings[m.Of], m))
	}
	if !a.json {
		a.showFound(result)
	}
	return a.done(result, fmt.Sprintf("%d nearest of %s with a reading", len(result.Tiles), many(len(shown), "tile", "tiles")), "")
}

// measuredTiles are the wall's own tiles that have a reading, and it.
func measuredTiles(w tiles.Wall) (shown []tiles.Tile, readings []tiles.Reading) {
	byTile := map[tiles.Number][]tiles.Reading{}
	for _, r := range w.Readings {
		byTile[r.Tile] = append(byTile[r.Tile], r)
	}
	for _, t := range w.Tiles {
		if r, ok := tiles.ColorOf(byTile[t.Number], t.Number); ok && t.Own() && t.Status != tiles.Retired {
			shown, readings = append(shown, t), append(readings, r)
		}
	}
	return shown, readings
}

// placesOf are the colors tiles are found by; Of is the place in the list.
func placesOf(readings []tiles.Reading) *color.Places {
	var places []color.Place
	for i, r := range readings {
		places = append(places, color.Place{Lab: color.Lab{L: r.L, A: r.A, B: r.B}, Of: i})
		for k, p := range r.Parts {
			places = append(places, color.Place{Lab: color.Lab{L: p.L, A: p.A, B: p.B}, Of: i, Part: k + 1})
		}
	}
	return color.NewPlaces(places)
}

func sayFound(w tiles.Wall, t tiles.Tile, r tiles.Reading, m color.Match) foundTile {
	out := foundTile{
		Tile: t.Number, First: t.First, Second: t.Second, Said: w.Say(t.Pair),
		Away: m.DE00, Doubt: r.Doubt, Class: r.Class, Color: sayColor(m.Lab, r.Doubt),
	}
	if m.Part > 0 {
		out.By = fmt.Sprintf("%.0f %% of it", 100*r.Parts[m.Part-1].Share)
	}
	return out
}

func sayColor(c color.Lab, doubt float64) colorSaid {
	hex, shown := c.Hex()
	return colorSaid{L: c.L, A: c.A, B: c.B, Hex: hex, Shown: shown, Words: color.Describe(c, doubt)}
}

// within says that a tile and the color are the same as far as its photo can
// tell.
func (f foundTile) within() bool { return f.Doubt > 0 && f.Away <= f.Doubt }

func (r found) anyWithin() bool { return slices.ContainsFunc(r.Tiles, foundTile.within) }
