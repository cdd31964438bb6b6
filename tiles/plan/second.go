package plan

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// Vessel is what second dips are made in beside the bucket: a narrow trough
// that one tile fits, in mm of its inside.
type Vessel struct {
	Length, Width float64
	Deep          float64 // glaze that must stand in it under the last tile
	Litres        float64 // of that glaze, what the tile pushes aside not counted
	film          float64 // litres that stay on its walls after scraping
}

// Common practice, no source.
const (
	roomBeside  = 8   // mm free on every side of a tile in a trough, and below it
	filmOnWall  = 1.5 // ml that stay on a dm² of wall scraped with a rubber kidney
	troughWork  = 2   // minutes to fill a trough, pour it back and scrape it
	sieveWork   = 10  // minutes to sieve a bucket and wash the sieve
	sieveLoss   = 0.02
	brushWork   = 2 // minutes to brush the three thin coats that make one dip, drying not counted
	brushRinse  = 0.005
	leastTrough = 20 // mm: narrower than that nobody makes or cleans one
)

// Trough is the vessel fitted to the wall's tile for its second dip.
func Trough(s tiles.Shape) Vessel {
	c := s.Coats(tiles.Pair{First: "1", Second: "2"})[1]
	edge, foot := s.Width, s.Thickness
	switch {
	case c.In == tiles.EdgeLeft || c.In == tiles.EdgeRight:
		edge, foot = s.Height, max(s.Foot, s.Thickness)
	case c.Depth > s.Height-s.Thickness:
		foot = max(s.Foot, s.Thickness)
	}
	v := Vessel{Length: edge + 2*roomBeside, Width: max(foot+2*roomBeside, leastTrough), Deep: c.Depth + roomBeside}
	pushed := edge * s.Thickness * c.Depth
	if foot > s.Thickness {
		pushed += (foot - s.Thickness) * s.Thickness * c.Depth
	}
	v.Litres = (v.Length*v.Width*v.Deep - pushed) / 1e6
	v.film = filmOnWall * (2*(v.Length+v.Width)*v.Deep + v.Length*v.Width) / 1e4 / 1000
	return v
}

// SecondWay is one way to put the second coats on, and what it costs for all
// that is still to be made.
type SecondWay struct {
	From    tiles.SecondFrom
	Chosen  bool
	Litres  float64 // of glaze to have ready in all
	Thrown  float64 // litres of it thrown away
	Kept    float64 // litres of it kept in jars at the end
	Minutes float64 // of work in the second runs
	Says    string  // how it is done
	Risks   string  // what can go wrong
}

// secondWords says how each way is done and what it risks (common practice, no
// source; what settles in a jar is derived).
//
// The jar is the default. A shared studio's bucket must stay clean, so nothing
// a first coat has touched goes back into it; and nothing need be thrown away:
// every dip takes out as much glaze as the top-up brings in, so that the first
// coats' share in the jar settles at the share of a coat that washes off, about
// one part in a hundred, and stays there however long the jar is kept.
var secondWords = []SecondWay{
	{From: tiles.SecondJar,
		Says:  "from a narrow trough, filled from the jar that is kept for this glaze’s 2nd coats and poured back into it; the bucket only tops it up",
		Risks: "a jar takes on about 1 % of other glazes and no more; start it anew when it shows specks or a tint; shake it, it settles"},
	{From: tiles.SecondTrough,
		Says:  "from a narrow trough, filled from the bucket; throw what is left away",
		Risks: "none to the bucket; most glaze thrown away but for the cup"},
	{From: tiles.SecondBrush,
		Says:  "with a soft brush, three thin coats, each touch-dry before the next",
		Risks: "brush marks and uneven coats, so colors scatter more; it drags at the first coat"},
	{From: tiles.SecondBucket,
		Says:  "in the bucket itself, light firsts before dark; sieve the bucket (80 mesh) after the run",
		Risks: "a sieve stops crumbs, not color: the studio’s bucket takes on a little of every first, and no dip takes it out again"},
	{From: tiles.SecondCup,
		Says:  "from a clean cup filled from the bucket; throw what is left away",
		Risks: "none to the bucket; the most glaze thrown away"},
}

// SecondWordsOf is how a way is done and what it risks.
func SecondWordsOf(from tiles.SecondFrom) SecondWay {
	for _, w := range secondWords {
		if w.From == fromOf(from) {
			return w
		}
	}
	return SecondWay{From: from}
}

// fromOf is the way a setting names; none named is the cup.
func fromOf(from tiles.SecondFrom) tiles.SecondFrom {
	if from == "" {
		return tiles.SecondCup
	}
	return from
}

// SecondWays compares the ways for the wall, the default first.
func SecondWays(w tiles.Wall) []SecondWay {
	chosen := fromOf(w.Dip.SecondFrom)
	ways := make([]SecondWay, len(secondWords))
	for i, way := range secondWords {
		w.Dip.SecondFrom = way.From
		need := Need(w)
		way.Chosen = way.From == chosen
		way.Litres, way.Thrown, way.Kept = need.Litres, need.Thrown, need.Kept
		for _, s := range Sessions(w) {
			way.Minutes += DipRuns(w, s...).Second.Minutes
		}
		ways[i] = way
	}
	return ways
}

// left is what one glaze's second dips leave after so many fillings: litres
// thrown away, and litres kept.
func left(s tiles.Settings, fillings int) (thrown, kept float64) {
	n := float64(fillings)
	v := Trough(s.Tile)
	switch fromOf(s.Dip.SecondFrom) {
	case tiles.SecondJar:
		return n * v.film, min(n, 1) * v.Litres
	case tiles.SecondTrough:
		return n * (v.Litres + v.film), 0
	case tiles.SecondBrush:
		return n * brushRinse, 0
	case tiles.SecondBucket:
		return n * sieveLoss, 0
	}
	return n * CupFill(s), 0
}

// secondMinutes is what a way adds to the work of one second step of so many
// tiles, and what a tile takes in it.
func secondMinutes(d tiles.Dip) (step, tile float64) {
	seconds := d.Seconds
	if d.SecondSeconds > 0 {
		seconds = d.SecondSeconds
	}
	tile = (seconds + d.Handling) / 60
	switch fromOf(d.SecondFrom) {
	case tiles.SecondJar, tiles.SecondTrough:
		step = troughWork
	case tiles.SecondBucket:
		step = sieveWork
	case tiles.SecondBrush:
		tile = brushWork
	}
	return step, tile
}

// secondNote is what a second step's first note says.
func secondNote(from tiles.SecondFrom) string {
	switch fromOf(from) {
	case tiles.SecondJar:
		return "from its jar, in the trough; pour back into the jar"
	case tiles.SecondTrough:
		return "from a clean trough; throw the rest away"
	case tiles.SecondBrush:
		return "brush three thin coats"
	case tiles.SecondBucket:
		return "in the bucket; sieve it after"
	}
	return "from a clean cup, a shorter dip than the first"
}

// secondAssumed is the vessel of second dips as an assumption.
func secondAssumed(s tiles.Settings) Assumption {
	v := Trough(s.Tile)
	switch fromOf(s.Dip.SecondFrom) {
	case tiles.SecondCup:
		return Assumption{"cup for second dips", fmt.Sprintf("%g mm across, %s of each thrown away", s.Dip.Cup, s.Units.Volume(CupFill(s))), "dip: cup"}
	case tiles.SecondJar, tiles.SecondTrough:
		return Assumption{"trough for second dips", fmt.Sprintf("%s inside, %s of glaze in it", s.Units.Lengths(v.Length, v.Width, v.Deep+roomBeside), s.Units.Volume(v.Litres)), "dip: second-from"}
	}
	return Assumption{"second coats", secondNote(s.Dip.SecondFrom), "dip: second-from"}
}
