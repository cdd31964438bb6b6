package measure

import (
	"cmp"
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/color/mottle"
)

// leastKept is the kept share under which a reading is warned about.
const leastKept = 0.7

// reading makes a sample a reading.
func (s *scene) reading(f *Face, zone tiles.Zone, got *sample, ask Ask) tiles.Reading {
	mean, cells := s.colors(got)
	r := tiles.Reading{
		Tile: f.Tile, Zone: zone, L: mean.L, A: mean.A, B: mean.B,
		Photo: ask.Photo, Spread: cells.Spread(), Parts: parts(cells),
		Correction: cmp.Or(s.said, s.fix.String()), Class: cmp.Or(s.class, tiles.Class(s.fix.Kind())),
		Doubt:   math.Hypot(s.fix.DoubtAt(mean), cells.Doubt()),
		Profile: s.photo.Profile.String(), Kept: got.keptShare(), Found: f.Found,
		Taken: s.photo.Taken, Soft: f.soft, Warning: f.Warning,
	}
	switch {
	case r.Warning != "":
	case got.over > mostBlown:
		r.Warning = fmt.Sprintf("over %.0f %% of the area a color channel is blown out, so the color is too pale: photograph again with less light", 100*got.over)
	case r.Kept < leastKept:
		r.Warning = fmt.Sprintf("only %.0f %% of the area could be used: the rest is glare or blown out", 100*r.Kept)
	case zone == tiles.ZoneWhole && looksShaded(r.Parts, cells):
		r.Warning = "a shadow seems to lie across the tile: one part is the other in less light"
	}
	return r
}

// colors corrects a sample cell by cell: its color is that of the mean light.
func (s *scene) colors(got *sample) (mean color.Lab, cells mottle.Area) {
	var sum color.XYZ
	cells = mottle.Area{Width: got.w, Cells: make([]color.XYZ, len(got.count))}
	for i, n := range got.count {
		if n == 0 {
			cells.Cells[i] = mottle.Out
			continue
		}
		l, k := got.light[i], float64(n)
		c := s.fix.XYZ(correct.RGB{l[0] / k, l[1] / k, l[2] / k})
		cells.Cells[i] = c
		sum.X, sum.Y, sum.Z = sum.X+k*c.X, sum.Y+k*c.Y, sum.Z+k*c.Z
	}
	n := float64(got.kept)
	return color.XYZ{X: sum.X / n, Y: sum.Y / n, Z: sum.Z / n}.Lab(), cells
}

func parts(cells mottle.Area) []tiles.Part {
	var out []tiles.Part
	for _, p := range cells.Parts() {
		out = append(out, tiles.Part{L: p.Lab.L, A: p.Lab.A, B: p.Lab.B, Share: p.Share})
	}
	return out
}
