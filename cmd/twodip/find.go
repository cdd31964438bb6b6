package main

import (
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

func findCommand(a *app) *cobra.Command {
	var most int
	c := &cobra.Command{
		Use:   "find COLOR|PHOTO",
		Short: "The tiles nearest to a color or to what a photo shows",
		Long: "Lists the tiles whose measured color is nearest to a color, by CIEDE2000.\n" +
			"A mottled tile is found by its color as a whole or by either of its two main colors.\n\n" +
			"COLOR is '#5a7f91' (sRGB) or 'lab(48 -8 -14)' (D50), in quotes. Of a PHOTO the thing\n" +
			"that stands out in it is read, or else its middle.",
		Example: "  twodip find '#5a7f91'\n  twodip find 'lab(48 -8 -14)' --most 5\n  twodip find leaf.jpg",
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
		return errors.New("find takes one color, in quotes, such as '#5a7f91' or 'lab(48 -8 -14)', or one photo")
	}
	return nil
}

// found is what find says to programs.
type found struct {
	Color colorSaid   `json:"color"`
	Photo string      `json:"photo,omitempty"` // where the color is from
	Doubt float64     `json:"doubt"`           // ± ΔE00 of the color; 0 = as written
	Class tiles.Class `json:"class,omitempty"`
	Notes []string    `json:"notes,omitempty"`
	Tiles []foundTile `json:"tiles"`
}

// colorSaid is a color in every form a reader may want.
type colorSaid struct {
	L     float64  `json:"l"`
	A     float64  `json:"a"`
	B     float64  `json:"b"`
	Hex   string   `json:"hex"`
	Shown bool     `json:"shown"` // false: sRGB cannot show it, hex is paler
	Words string   `json:"words"`
	Names []string `json:"names"` // ISCC–NBS, level 3: all that the doubt leaves open
}

// foundTile is one of the nearest tiles. Away is ΔE00 from the color to the
// tile's mean, or to the one of its main colors that By names.
type foundTile struct {
	Tile   tiles.Number `json:"tile"`
	First  string       `json:"first"`
	Second string       `json:"second"`
	Said   string       `json:"said"`
	Away   float64      `json:"away"`
	Same   bool         `json:"same"` // as far as the photos can tell
	By     string       `json:"by"`
	Doubt  float64      `json:"doubt"`
	Class  tiles.Class  `json:"class"`
	Color  colorSaid    `json:"color"`
}

func (a *app) find(what string, most int) error {
	wall, err := a.load()
	if err != nil {
		return err
	}
	ask, err := a.ask(what, wall)
	if err != nil {
		return err
	}
	shown, readings := measuredTiles(wall)
	if len(shown) == 0 {
		return tiles.Problem{File: "tiles/measured.csv", What: "no tile has a reading yet", Do: "put photos into tiles/photos, then: twodip measure"}
	}
	result := found{Color: sayColor(ask.lab, ask.doubt), Photo: ask.photo, Doubt: ask.doubt, Class: ask.class, Notes: ask.notes}
	for _, m := range placesOf(readings).Nearest(ask.lab, most) {
		f := sayFound(wall, shown[m.Of], readings[m.Of], m)
		f.Same = f.Doubt > 0 && f.Away <= math.Hypot(f.Doubt, ask.doubt)
		result.Tiles = append(result.Tiles, f)
	}
	if !a.json {
		a.showFound(result)
	}
	return a.done(result, fmt.Sprintf("%d nearest of %s with a reading", len(result.Tiles), many(len(shown), "tile", "tiles")), "")
}

// measuredTiles are the wall's own tiles that have a reading, and it.
func measuredTiles(w tiles.Wall) (shown []tiles.Tile, readings []tiles.Reading) {
	byTile := tiles.ByTile(w.Readings)
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
	return colorSaid{L: c.L, A: c.A, B: c.B, Hex: hex, Shown: shown, Words: color.Describe(c, doubt), Names: color.Names(c, doubt, 3)}
}
