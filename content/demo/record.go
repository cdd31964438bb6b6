package demo

import (
	"fmt"
	"slices"
	"strconv"
	"time"
)

// The studio fires glaze every Saturday of a term: G1, G2, … over the year. The
// wall's own tiles were in the first firings of the autumn; since then a
// control stands on the top shelf of every one. Bisque is fired when a load
// is full, which is seldomer, for bisque may touch.
const (
	autumnWeeks = 10
	springWeeks = 10
	bisqueDays  = 9 // from one bisque firing to the next
)

var (
	autumnStart = time.Date(2025, 10, 6, 0, 0, 0, 0, time.UTC)
	springStart = time.Date(2026, 1, 12, 0, 0, 0, 0, time.UTC)
)

// firing is one row of tiles/loads.csv.
type firing struct {
	name, schedule, cones, tiles, note string
	day                                time.Time
}

// glazeFirings are those of both terms. wallLoads is how many loads of the plan
// hold the wall's own tiles; each firing after them is a load of its own.
func glazeFirings() []firing {
	var fs []firing
	for i := range autumnWeeks + springWeeks {
		monday := autumnStart.AddDate(0, 0, 7*i)
		if i >= autumnWeeks {
			monday = springStart.AddDate(0, 0, 7*(i-autumnWeeks))
		}
		n := strconv.Itoa(i + 1)
		f := firing{name: "G" + n, day: monday.AddDate(0, 0, 5), schedule: "slow 6", cones: "top 6; middle 6; bottom 6", tiles: n}
		if f.name == hotLoad {
			f.cones, f.note = "top 7; middle 6; bottom 6", "the top element was new"
		}
		fs = append(fs, f)
	}
	return fs
}

// bisqueFirings are those that the spring's pieces come from.
func bisqueFirings() []firing {
	var fs []firing
	for i := range 9 {
		fs = append(fs, firing{name: "B" + strconv.Itoa(i+1), schedule: "bisque 04", cones: "top 04; middle 04; bottom 04",
			day: springStart.AddDate(0, 0, bisqueDays*i-10)})
	}
	return fs
}

func (t *term) firings() []byte {
	rows := [][]string{{"load", "kiln", "date", "schedule", "cones", "tiles", "note"}}
	all := slices.Concat(glazeFirings(), t.bisques)
	slices.SortStableFunc(all, func(a, b firing) int { return a.day.Compare(b.day) })
	for _, f := range all {
		rows = append(rows, []string{f.name, "The little kiln", f.day.Format(time.DateOnly), f.schedule, f.cones, f.tiles, f.note})
	}
	return asCSV(rows)
}

// batch is one mix of a bucket, or a later look at its specific gravity.
type batch struct {
	glaze, name string
	mixed       time.Time
	sg          float64
	note        string
	again       bool // a look at the specific gravity, not a mix
}

// remixes are the buckets that were mixed again; the others still hold what
// the wall's tiles were made from.
var remixes = []batch{
	{glaze: "TB", name: changedBatch, mixed: springStart.AddDate(0, 0, 6)},
	{glaze: "PP", name: sameBatch, mixed: springStart.AddDate(0, 0, 12)},
	{glaze: "QM", name: "QM-2", mixed: springStart.AddDate(0, 0, 27)},
	{glaze: "MW", name: badBatch, mixed: springStart.AddDate(0, 0, 28), sg: 1.54, note: "mixed in a hurry; sieved once"},
	{glaze: "OH", name: "OH-2", mixed: springStart.AddDate(0, 0, 34)},
	{glaze: "SF", name: "SF-2", mixed: springStart.AddDate(0, 0, 54)},
}

// gravities are the buckets' targets, as the glaze list has them; those of the
// watched ones are looked at every three weeks.
var (
	gravities = map[string]float64{"QM": 1.46, "FG": 1.42, "OH": 1.48, "SF": 1.44, "HG": 1.43, "HS": 1.45,
		"MW": 1.47, "CM": 1.46, "PP": 1.45, "LR": 1.45, "TB": 1.43, "PI": 1.44}
	watched = []string{"HS", "MW", "QM", "SF", "TB"}
)

// mixAll fills the bucket record: first mixes before the autumn, remixes, and
// looks at the specific gravity between them.
func (t *term) mixAll() {
	for i, code := range t.codes {
		t.batches = append(t.batches, batch{glaze: code, name: code + "-1", mixed: autumnStart.AddDate(0, 0, i%4-6), sg: t.near(code)})
	}
	for _, b := range remixes {
		if b.sg == 0 {
			b.sg = t.near(b.glaze)
		}
		t.batches = append(t.batches, b)
	}
	end := springStart.AddDate(0, 0, 7*springWeeks)
	for day := autumnStart.AddDate(0, 0, 21); day.Before(end); day = day.AddDate(0, 0, 21) {
		t.look(day)
	}
	slices.SortStableFunc(t.batches, func(a, b batch) int { return a.mixed.Compare(b.mixed) })
}

// look writes down the specific gravity of the busy buckets on a day.
func (t *term) look(day time.Time) {
	for _, code := range watched {
		in := t.inBucket(code, day)
		b := batch{glaze: code, name: in.name, mixed: day, sg: t.near(code), note: "checked", again: true}
		if in.name == badBatch {
			b.sg, b.note = in.sg-0.01*float64(t.r.IntN(2)), "checked; still thick"
		}
		t.batches = append(t.batches, b)
	}
}

// near is a specific gravity as a careful person mixes it.
func (t *term) near(code string) float64 { return gravities[code] + t.r.NormFloat64()*0.006 }

// inBucket is the batch that stood in the bucket that day.
func (t *term) inBucket(code string, day time.Time) batch {
	var in batch
	for _, b := range t.batches {
		if b.glaze == code && !b.again && !b.mixed.After(day) && !b.mixed.Before(in.mixed) {
			in = b
		}
	}
	return in
}

func (t *term) buckets() []byte {
	rows := [][]string{{"glaze", "batch", "mixed", "sg", "sieved", "note"}}
	for _, b := range t.batches {
		sieved := b.mixed.Format(time.DateOnly)
		if b.again {
			sieved = ""
		}
		rows = append(rows, []string{b.glaze, b.name, b.mixed.Format(time.DateOnly), fmt.Sprintf("%.2f", b.sg), sieved, b.note})
	}
	return asCSV(rows)
}
