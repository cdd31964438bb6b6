package measure

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
)

// byControls corrects a photo of the whole board by the tiles on it whose
// color is known from a corrected photo of their own: the wall's controls.
func (f *fitting) byControls(asked bool) {
	var seen []correct.Seen
	var controls []geometry.Quad
	for i := range f.found.Faces {
		face := &f.found.Faces[i]
		known, ok := f.ask.control(face.Tile)
		if !ok {
			continue
		}
		got, ok := f.zone(face, known.Zone)
		if !ok {
			continue
		}
		controls = append(controls, face.Quad)
		lab := color.Lab{L: known.L, A: known.A, B: known.B}
		seen = append(seen, correct.Seen{
			Patch: color.Patch{Name: "tile " + face.Tile.String(), Lab: lab}, RGB: got,
		})
	}
	if len(seen) < leastControls {
		if asked {
			f.note("%d of the tiles on the board are controls of known color; %d are needed to correct by: photograph a few tiles on the mat with a chart, or the singles of the kiln's controls with a grey card, first",
				len(seen), leastControls)
		}
		return
	}
	seen = append(seen, f.Light.printed()...)
	if f.bySeen(seen) {
		f.Used = controls
		f.class, f.said = tiles.ClassControls, fmt.Sprintf("%d control tiles", len(controls))
	}
}

// White paper and black ink as printed about the marks of a board (common
// practice, no source): they hold the ends of the contrast where the controls
// are of middling lightness. They do not count as neutral, nor do controls of
// little chroma: papers are of many whites, and a curve drawn through two tiles
// that are nearly alike would lean on their noise.
var (
	whitePaper = color.Patch{Name: "white paper", Lab: color.Lab{L: 94}}
	blackInk   = color.Patch{Name: "black ink", Lab: color.Lab{L: 22}}
)

// printed is the paper and the ink as the photo shows them.
func (l *Lit) printed() (seen []correct.Seen) {
	for _, p := range []correct.Seen{{Patch: whitePaper, RGB: l.Paper}, {Patch: blackInk, RGB: l.Ink}} {
		if p.RGB != (correct.RGB{}) {
			seen = append(seen, p)
		}
	}
	return seen
}

// leastControls is how many control tiles make a correction.
const leastControls = 3

// control is the reading that a tile's color is known by in a photo of the
// whole board: made on a chart in a photo of its own, typed in by hand from an
// instrument, or, for the singles that the wall names as its controls, made on
// a grey card.
func (a Ask) control(n tiles.Number) (tiles.Reading, bool) {
	t, ok := a.Wall.Tile(n)
	if !ok {
		return tiles.Reading{}, false
	}
	return a.trusted(t, a.Wall.Readings)
}

// trusted is control with the readings to choose from.
func (a Ask) trusted(t tiles.Tile, rs []tiles.Reading) (tiles.Reading, bool) {
	listed := slices.ContainsFunc(a.Wall.Kiln.Controls, func(code string) bool {
		return tiles.SameCode(code, t.First) && (t.Single() || t.Double())
	})
	var trusted []tiles.Reading
	for _, r := range rs {
		typed := r.Photo == "" && r.Hash == ""
		if r.Tile == t.Number && r.Photo != a.Photo && (r.Class == tiles.ClassChart || typed || listed && r.Class == tiles.ClassGrey) {
			trusted = append(trusted, r)
		}
	}
	return tiles.ColorOf(trusted, t.Number)
}

// zone is the mean light of a zone of a tile.
func (f *fitting) zone(face *Face, zone tiles.Zone) (rgb correct.RGB, ok bool) {
	t, _ := f.ask.Wall.Tile(face.Tile)
	f.areas.read(f.photo, face.Quad.Bounds())
	for _, a := range areas(f.ask.Wall.Settings.Tile, t.Pair, face.Middle) {
		if a.zone != zone {
			continue
		}
		got := f.areas.takeSample(face, a, &f.photo.Profile.ToXYZ, f.Light.level)
		for i := range got.light {
			for k := range rgb {
				rgb[k] += got.light[i][k] / max(1, got.kept)
			}
		}
		return rgb, got.keptShare() > leastKept
	}
	return rgb, false
}
