package run

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// cupNote says how much glaze second-dip cups waste, where that is much.
func cupNote(p Planned) []string {
	if say := p.Materials.CupWords(p.Wall); say != "" {
		return []string{say}
	}
	return nil
}

func makeWords(u tiles.Units, m plan.Materials) string {
	return fmt.Sprintf("%d planned and %s: %s of wet clay; of glaze, %s go on the tiles, %s thrown away and %s stay standing in %s",
		m.Tiles, english.Count(m.Spares, "spare", "spares"), u.Weight(m.Clay), u.Volume(m.Coats), thrown(u, m.Thrown), u.Volume(m.Standing), english.Count(len(m.Buckets), "bucket", "buckets"))
}

func thrown(u tiles.Units, litres float64) string {
	if litres < 0.0005 {
		return "none is"
	}
	return u.Volume(litres) + " are"
}

// WholeWords is the whole of the work that is left, in one phrase; "" = none.
func WholeWords(stages []plan.Stage) string { return wholeWords(plan.Whole(stages)) }

// Whole is the same of a cost.
func (c Cost) Whole() string { return wholeWords(c.Hours, c.Days) }

func wholeWords(hours float64, days int) string {
	if days == 0 {
		return ""
	}
	return fmt.Sprintf("%s of work from clay to wall, over %s", english.Count(int(math.Round(hours)), "hour", "hours"), english.Count(days, "day", "days"))
}

// firstWall is how many glazes make a first wall of one afternoon's dipping.
const firstWall = 4

// smallFirst offers a first small wall where a large one is begun.
func smallFirst(p Planned) []string {
	n := inList(p.Wall.Glazes)
	if n <= firstWall || len(p.Added) == 0 || len(p.Added) != len(p.Tiles)-len(p.Controls) {
		return nil
	}
	return []string{fmt.Sprintf("a first wall can be small: list %d glazes now, %d tiles that one afternoon dips, and add the others later; no number changes",
		firstWall, firstWall*firstWall)}
}
