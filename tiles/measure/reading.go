package measure

import (
	"cmp"
	"errors"
	"fmt"

	"gonum.org/v1/gonum/floats"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/color/mottle"
	"github.com/twodip/twodip/tiles/photo"
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
		Doubt:   r.doubt(mean, cells, f, got),
		Profile: r.photo.Profile.String(), Kept: got.keptShare(), Found: f.Found,
		Taken: r.photo.Taken, Soft: f.soft, Warning: f.Warning,
	}
	switch {
	case out.Warning != "":
	case got.over > mostBlown:
		out.Warning = fmt.Sprintf("over %.0f %% of the area a color channel is blown out, so the color is too pale: photograph again with less light", 100*got.over)
	case softShine(mean, cells, r.fix.Light.level != nil) > shineSaid:
		out.Warning = "it gets much lighter toward one side or spot, and no more colored: shine seems to lie on it"
	case got.shine.counts > 0 && got.orGlaze(r.fix.Correction) > shineSaid:
		out.Warning = "a part of it is much lighter and greyer than the rest: shine, or a light part of the glaze; photograph it again from another side"
	case out.Kept < leastKept:
		out.Warning = fmt.Sprintf("only %.0f %% of the area could be used: the rest is glare or blown out", 100*out.Kept)
	case zone == tiles.ZoneWhole && looksShaded(out.Parts, cells):
		out.Warning = "a shadow seems to lie across the tile: one part is the other in less light"
	}
	return out
}

// What else widens a doubt, ΔE00 (by judgement, not fitted): a soft picture mixes
// a tile with what is beside it, and near glare that is dropped lies glare that is
// not.
const (
	softDoubt  = 1.5
	glareDoubt = 15.0 // times the share that was dropped
)

// doubt is ± ΔE00, about 95 %: what the correction, the light, the picture and the
// tile's own mottling leave unsure, taken as independent.
func (r *zoneReader) doubt(mean color.Lab, cells mottle.Area, f *Face, got *sample) float64 {
	parts := []float64{r.fix.DoubtAt(mean), cells.Doubt(), r.fix.Light.doubtAt(mean), r.fix.Light.tintedAt(f.Quad), glareDoubt * (1 - got.keptShare()),
		got.orGlaze(r.fix.Correction), softShine(mean, cells, r.fix.Light.level != nil)}
	if f.soft {
		parts = append(parts, softDoubt)
	}
	return floats.Norm(parts, 2)
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
		l, k := got.light[i], n
		c := by.XYZ(correct.RGB{l[0] / k, l[1] / k, l[2] / k})
		cells.Cells[i] = c
		sum.X, sum.Y, sum.Z = sum.X+k*c.X, sum.Y+k*c.Y, sum.Z+k*c.Z
	}
	n := got.kept
	return color.XYZ{X: sum.X / n, Y: sum.Y / n, Z: sum.Z / n}.Lab(), cells
}

// inRange keeps a reading to what a fired surface can be, L* 0 to 100 and a* and
// b* within ±200: one that is over by less than its own doubt is brought back
// and says so; one further off is no color of the tile but a wrong correction or
// glare, and refused.
func inRange(r *tiles.Reading) error {
	lab := color.Lab{L: r.L, A: r.A, B: r.B}
	if lab.Real() {
		return nil
	}
	if over := max(lab.L-100, -lab.L); over <= min(r.Doubt, mostOver) && (color.Lab{L: 50, A: lab.A, B: lab.B}).Real() {
		r.L = min(max(lab.L, 0), 100)
		r.Warning = cmp.Or(r.Warning, fmt.Sprintf("it came out as L* %.1f, which no surface has, and was taken for %.0f", lab.L, r.L))
		return nil
	}
	return photo.Refusal{What: impossible(r, lab), Do: "photograph the tile and its reference again, clear of each other and of reflections"}
}

// mostOver is how far L* may lie past its range at the most and be brought back.
const mostOver = 3.0

func impossible(r *tiles.Reading, lab color.Lab) string {
	if !(lab.L > 100) {
		return "its color comes out as none that a surface can have"
	}
	if r.Class == tiles.ClassCamera {
		return fmt.Sprintf("it comes out lighter than white (L* %.0f): glare lies on it", lab.L)
	}
	return fmt.Sprintf("it comes out lighter than white (L* %.0f): glare lies on it, or what was taken for the reference (%s) is something darker", lab.L, r.Correction)
}

// whyRefused is a refusal's reason alone.
func whyRefused(err error) string {
	var refused photo.Refusal
	if errors.As(err, &refused) {
		return refused.What
	}
	return err.Error()
}

func parts(cells mottle.Area) []tiles.Part {
	var out []tiles.Part
	for _, p := range cells.Parts() {
		out = append(out, tiles.Part{L: p.Lab.L, A: p.Lab.A, B: p.Lab.B, Share: p.Share})
	}
	return out
}
