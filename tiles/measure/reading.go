package measure

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/color/mottle"
)

// leastKept is the kept share under which a reading is warned about.
const leastKept = 0.7

// read makes a zone's sample a reading.
func (r *zoneReader) read(f *Face, zone tiles.Zone, got *sample) tiles.Reading {
	mean, cells := colors(r.fix.Correction, got)
	out := tiles.Reading{
		Tile: f.Tile, Zone: zone, L: mean.L, A: mean.A, B: mean.B,
		Photo: r.ask.Photo, Spread: cells.Spread(), Parts: parts(cells),
		Correction: r.fix.String(), Class: r.fix.Class(),
		Doubt:   math.Hypot(r.fix.DoubtAt(mean), cells.Doubt()),
		Profile: r.photo.Profile.String(), Kept: got.keptShare(), Found: f.Found,
		Taken: r.photo.Taken, Soft: f.soft, Warning: f.Warning,
	}
	switch {
	case out.Warning != "":
	case got.over > mostBlown:
		out.Warning = fmt.Sprintf("over %.0f %% of the area a color channel is blown out, so the color is too pale: photograph again with less light", 100*got.over)
	case out.Kept < leastKept:
		out.Warning = fmt.Sprintf("only %.0f %% of the area could be used: the rest is glare or blown out", 100*out.Kept)
	case zone == tiles.ZoneWhole && looksShaded(out.Parts, cells):
		out.Warning = "a shadow seems to lie across the tile: one part is the other in less light"
	}
	return out
}

// colors corrects a sample cell by cell: its color is that of the mean light.
func colors(by *correct.Correction, got *sample) (mean color.Lab, cells mottle.Area) {
	var sum color.XYZ
	cells = mottle.Area{Width: got.w, Cells: make([]color.XYZ, len(got.count))}
	for i, n := range got.count {
		if n == 0 {
			cells.Cells[i] = mottle.Out
			continue
		}
		l, k := got.light[i], float64(n)
		c := by.XYZ(correct.RGB{l[0] / k, l[1] / k, l[2] / k})
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
