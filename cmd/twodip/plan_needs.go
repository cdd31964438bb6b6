package main

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/run"
)

// sayNeeds lists glaze, clay and what the sums assume.
func (a *app) sayNeeds(w tiles.Wall, m plan.Materials) error {
	if m.Tiles == 0 {
		return a.done(run.Needs{Materials: m}, "nothing is left to make", "twodip measure")
	}
	dry, fill := 0.0, 0.0
	u := w.Units
	a.step("%9s  %9s  %9s  %5s  glaze", "ready", "dry", "water", "dips")
	for _, b := range m.Buckets {
		a.step("%9s  %9s  %9s  %5d  %-4s %s, SG %.2f", u.Volume(b.Litres), u.Weight(b.Dry), u.Volume(b.Water), b.Dips, b.Glaze.Code, b.Glaze.Name, b.Gravity)
		dry, fill = dry+b.Dry, b.Fill
	}
	a.step("%9s  of these must stand in each bucket for the last tile, and stay there", u.Volume(fill))
	a.step("%9s  of all go on the tiles, drips counted", u.Volume(m.Coats))
	if say := m.CupWords(w); say != "" {
		a.step("note: %s", say)
	} else if m.Cups > 0 {
		a.step("%9s  of these are left in %s for second dips and thrown away", u.Volume(m.Thrown), vessels(w, m.Cups))
	}
	a.step("\n%9s  of wet clay: %s and %s, cut %s, %s thick", u.Weight(m.Clay),
		english.Count(m.Tiles, "tile", "tiles"), english.Count(m.Spares, "spare", "spares"), u.Lengths(m.Wet.Width, m.Wet.Height), u.Length(m.Wet.Thickness))
	a.step("\nwhat these sums assume, and the setting that changes each:")
	for _, as := range m.Assumed {
		a.step("  %-24s %-44s %s", as.What, as.Value, as.Setting)
	}
	a.step("\nweigh and mix dry glaze away from students, with exhaust and a fitted respirator")
	return a.done(run.Needs{Materials: m}, fmt.Sprintf("have %s of glaze in %s, %s dry; %s of clay", u.Volume(m.Litres), english.Count(len(m.Buckets), "bucket", "buckets"), u.Weight(dry), u.Weight(m.Clay)),
		"twodip print materials")
}

// vessels are the fillings that second dips come from.
func vessels(w tiles.Wall, n int) string {
	if w.Dip.SecondFrom == tiles.SecondTrough {
		return english.Count(n, "filling of the trough", "fillings of the trough")
	}
	return english.Count(n, "cup", "cups")
}
