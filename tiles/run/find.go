package run

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
)

// FindWish is what a person looks for.
type FindWish struct {
	// What is a color as written ("#5a7f91", "lab(48 -8 -14)") or the name of a
	// photo; with Picture, the name that is said of it.
	What    string
	Picture []byte // a photo's bytes; nil = What says it
	Most    int    // how many tiles to list, 1 and up
	Guesses bool   // list the nearest guesses of pairs not fired, too
}

// Found is the tiles that are nearest to a color.
type Found struct {
	Color ColorSaid    `json:"color"`
	Photo string       `json:"photo,omitempty"` // where the color is from; "" = written
	Doubt float64      `json:"doubt"`           // ± ΔE00 of the color; 0 = as written
	Class tiles.Class  `json:"class,omitempty"`
	Shows tiles.Number `json:"shows,omitempty"` // the wall's tile that the photo is of; it comes first
	Notes []string     `json:"notes,omitempty"`
	Tiles []FoundTile  `json:"tiles"` // the nearest first
	Of    int          `json:"-"`     // tiles with a reading

	Guesses []FoundGuess `json:"guesses,omitempty"` // where they are asked for; never among the tiles
	Silent  string       `json:"silent,omitempty"`  // why nothing was guessed though it was asked for
}

// ColorSaid is a color in every form a reader may want.
type ColorSaid struct {
	L     float64  `json:"l"`
	A     float64  `json:"a"`
	B     float64  `json:"b"`
	Hex   string   `json:"hex"`
	Shown bool     `json:"shown"` // false: sRGB cannot show it, hex is paler
	Words string   `json:"words"`
	Names []string `json:"names"` // ISCC–NBS, level 3: all that the doubt leaves open
}

// FoundTile is one of the nearest tiles. Away is ΔE00 from the color to the
// tile's mean, or to the one of its main colors that By names.
type FoundTile struct {
	Tile   tiles.Number `json:"tile"`
	First  string       `json:"first"`
	Second string       `json:"second"`
	Said   string       `json:"said"`
	Away   float64      `json:"away"`
	Same   bool         `json:"same"` // away by no more than the doubt of both
	By     string       `json:"by"`
	Doubt  float64      `json:"doubt"`
	Class  tiles.Class  `json:"class"`
	Color  ColorSaid    `json:"color"`
}

// Find lists the tiles whose measured color is nearest to a color, or to what
// a photo shows, by CIEDE2000.
func Find(dir folder.Folder, wish FindWish) (Found, error) {
	wall, err := Load(dir)
	if err != nil {
		return Found{}, err
	}
	found, lab, err := look(dir, wall, wish)
	if err != nil {
		return found, err
	}
	shown, readings := measuredTiles(wall)
	if found.Of = len(shown); found.Of == 0 {
		return found, tiles.Problem{File: record.MeasuredFile, What: "no tile has a reading yet", Do: "put photos into tiles/photos, then: twodip measure", Page: "bring photos on the page Photographs"}
	}
	found.Color = sayColor(lab, found.Doubt)
	for _, m := range nearestFirst(shown, readings, lab, found, wish.Most) {
		f := sayFound(wall, shown[m.Of], readings[m.Of], m)
		f.Same = f.Doubt > 0 && f.Away <= math.Hypot(f.Doubt, found.Doubt)
		found.Tiles = append(found.Tiles, f)
	}
	if wish.Guesses {
		found.guess(wall, lab, wish.Most)
	}
	return found, nil
}

// pictures are the endings of files that are meant as photos.
var pictures = []string{".jpg", ".jpeg", ".png", ".heic", ".heif", ".webp", ".tif", ".tiff"}

// look reads a color as written, or the color of what a photo shows, and how
// surely it is known: exactly where somebody wrote it.
func look(dir folder.Folder, wall tiles.Wall, wish FindWish) (Found, color.Lab, error) {
	if wish.Picture != nil {
		return glance(dir, wall, wish.What, wish.Picture)
	}
	lab, wrong := color.Parse(wish.What)
	if wrong == nil {
		return Found{}, lab, nil
	}
	data, err := dir.GivenPhoto(wish.What)
	switch {
	case err == nil:
		return glance(dir, wall, wish.What, data)
	case !errors.Is(err, fs.ErrNotExist):
		return Found{}, lab, photoProblem(wish.What, err)
	case slices.Contains(pictures, strings.ToLower(filepath.Ext(wish.What))):
		return Found{}, lab, tiles.Problem{File: wish.What, What: "there is no such photo here or in " + folder.Photos}
	}
	return Found{}, lab, ErrNotAsked(wrong.Error())
}

// glance reads the color of the tile of ours that a photo shows, or else of
// whatever it shows.
func glance(dir folder.Folder, wall tiles.Wall, name string, data []byte) (Found, color.Lab, error) {
	patches, err := patches(dir, wall.Settings)
	if err != nil {
		return Found{}, color.Lab{}, err
	}
	ask := measure.Ask{Wall: wall, Photo: name, Patches: patches}
	var r tiles.Reading
	found := Found{Photo: name}
	if rs, notes, ok := own(dir, name, data, ask); ok {
		found.Shows, found.Notes = rs[0].Tile, notes
		r, _ = tiles.ColorOf(rs, found.Shows)
	} else {
		var reader measure.Reader
		err = Guarded(func() (err error) {
			r, found.Notes, err = reader.Glance(data, ask)
			return err
		})
	}
	if err != nil {
		return found, color.Lab{}, photoProblem(name, err)
	}
	if r.Warning != "" {
		found.Notes = append(found.Notes, r.Warning)
	}
	found.Doubt, found.Class = r.Doubt, r.Class
	return found, color.Lab{L: r.L, A: r.A, B: r.B}, nil
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

func sayFound(w tiles.Wall, t tiles.Tile, r tiles.Reading, m color.Match) FoundTile {
	out := FoundTile{
		Tile: t.Number, First: t.First, Second: t.Second, Said: w.Say(t.Pair),
		Away: m.DE00, Doubt: r.Doubt, Class: r.Class, Color: sayColor(m.Lab, r.Doubt),
	}
	if m.Part > 0 {
		out.By = fmt.Sprintf("%.0f %% of it", 100*r.Parts[m.Part-1].Share)
	}
	return out
}

func sayColor(c color.Lab, doubt float64) ColorSaid {
	hex, shown := c.Hex()
	return ColorSaid{L: c.L, A: c.A, B: c.B, Hex: hex, Shown: shown, Words: color.Describe(c, doubt), Names: color.Names(c, doubt, 3)}
}
