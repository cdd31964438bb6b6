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
	a.step("%7s  %7s  %7s  %5s  glaze", "litres", "dry kg", "water l", "dips")
	for _, b := range m.Buckets {
		a.step("%7.1f  %7.1f  %7.1f  %5d  %-4s %s, SG %.2f", b.Litres, b.Dry, b.Water, b.Dips, b.Glaze.Code, b.Glaze.Name, b.Gravity)
		dry, fill = dry+b.Dry, b.Fill
	}
	a.step("%7.1f  of these must stand in each bucket for the last tile, and stay there", fill)
	a.step("%7.1f  of all go on the tiles, drips counted", m.Coats)
	if say := m.CupWords(w); say != "" {
		a.step("note: %s", say)
	} else if m.Cups > 0 {
		a.step("%7.1f  of these are left in %s for second dips and thrown away", m.Thrown, english.Count(m.Cups, "cup", "cups"))
	}
	a.step("\n%7.1f  kg of wet clay: %s and %s, cut %.0f × %.0f mm, %.1f mm thick", m.Clay,
		english.Count(m.Tiles, "tile", "tiles"), english.Count(m.Spares, "spare", "spares"), m.Wet.Width, m.Wet.Height, m.Wet.Thickness)
	a.step("\nwhat these sums assume, and the setting that changes each:")
	for _, as := range m.Assumed {
		a.step("  %-24s %-44s %s", as.What, as.Value, as.Setting)
	}
	a.step("\nweigh and mix dry glaze away from students, with exhaust and a fitted respirator")
	return a.done(run.Needs{Materials: m}, fmt.Sprintf("have %.0f l of glaze in %s, %.0f kg dry; %.1f kg of clay", m.Litres, english.Count(len(m.Buckets), "bucket", "buckets"), dry, m.Clay),
		"twodip print materials")
}
