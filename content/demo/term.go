package demo

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"time"
)

// term is one term's work at the invented studio. Four causes of faults are
// planted in it, so that a trace has something to find: a pair that runs, a
// glaze that crawls over glossy coats, one bad batch, one hot shelf in one
// firing. Everything else goes wrong once in twenty-five.
type term struct {
	r       *rand.Rand
	codes   []string
	batches []batch
	loads   []load
}

type batch struct {
	glaze, name string
	mixed       time.Time
	sg          float64
	note        string
}

type load struct {
	name, schedule, cones, note string
	fired                       time.Time
}

const (
	pieces      = 430
	badBatch    = "MW-2"
	hotLoad     = "G6"
	hotShelf    = "top"
	termWeeks   = 10
	daysOfClass = 4
)

var (
	termStart = time.Date(2026, 1, 12, 0, 0, 0, 0, time.UTC)
	shelves   = []string{"top", "middle", "bottom"}
	glossy    = []string{"PI", "FG", "HG", "TB"}
)

func newTerm() *term {
	t := &term{r: rand.New(rand.NewPCG(Seed, 0x7465_726d))}
	for code := range looks {
		t.codes = append(t.codes, code)
	}
	slices.Sort(t.codes)
	for _, code := range t.codes {
		t.mix(code)
	}
	for i := range termWeeks {
		t.fire(i + 1)
	}
	return t
}

// mix fills a bucket at the start of term and again when it is low.
func (t *term) mix(code string) {
	for i, week := range []int{0, 4, 8}[:2+t.r.IntN(2)] {
		b := batch{glaze: code, name: fmt.Sprintf("%s-%d", code, i+1), mixed: termStart.AddDate(0, 0, 7*week+t.r.IntN(3)-2),
			sg: 1.45 + t.r.NormFloat64()*0.012}
		if b.name == badBatch {
			b.sg, b.note = 1.54, "mixed in a hurry; sieved once"
		}
		t.batches = append(t.batches, b)
	}
}

func (t *term) fire(week int) {
	l := load{name: "G" + strconv.Itoa(week), fired: termStart.AddDate(0, 0, 7*week-2), schedule: "slow 6", cones: "top 6; middle 6; bottom 6"}
	if l.name == hotLoad {
		l.cones, l.note = "top 7; middle 6; bottom 6", "the top element was new"
	}
	t.loads = append(t.loads, l)
}

// fault is what went wrong with one piece; the zero value is nothing.
type fault struct {
	word, zone string
	severity   int
}

// piece glazes, fires and judges the i-th piece.
func (t *term) piece(i int) []string {
	week := i * termWeeks / pieces
	day := termStart.AddDate(0, 0, 7*week+t.r.IntN(daysOfClass))
	first, second := t.choose()
	shelf := shelves[t.r.IntN(len(shelves))]
	l := t.loads[week]
	f := t.judge(first, second, l.name, shelf, day)
	result, severity := "good", ""
	if f.word != "" {
		result, severity = "fault", strconv.Itoa(f.severity)
	}
	where := ""
	if second != "" {
		where = []string{"upper third", "upper half", "rim", "whole outside"}[t.r.IntN(4)]
	}
	return []string{
		fmt.Sprintf("P%03d", i+1), day.Format(time.DateOnly), fmt.Sprintf("S%02d", 1+t.r.IntN(36)),
		[]string{"buff stoneware", "buff stoneware", "white stoneware"}[t.r.IntN(3)], "B" + strconv.Itoa(week+1),
		first, second, "dipped", where, l.name, shelf, result, f.word, f.zone, severity, "",
	}
}

// choose picks glazes as students do: some far more often, one coat in five pieces.
func (t *term) choose() (first, second string) {
	pick := func() string {
		return t.codes[int(float64(len(t.codes))*t.r.Float64()*t.r.Float64()*0.6+float64(len(t.codes))*0.4*t.r.Float64())]
	}
	switch {
	case t.r.IntN(9) == 0:
		return "HG", "SF"
	case t.r.IntN(8) == 0:
		return glossy[t.r.IntN(len(glossy))], "OH"
	}
	first = pick()
	if t.r.IntN(5) > 0 {
		for second == "" || second == first {
			second = pick()
		}
	}
	return first, second
}

func (t *term) judge(first, second, load, shelf string, day time.Time) fault {
	happens := func(rate float64) bool { return t.r.Float64() < rate }
	severity := 1 + t.r.IntN(3)
	switch {
	case first == "HG" && second == "SF" && happens(0.65):
		return fault{"running", "overlap", severity}
	case second == "OH" && slices.Contains(glossy, first) && happens(0.55):
		return fault{"crawling", "overlap", severity}
	case (first == "MW" || second == "MW") && t.batchOf("MW", day) == badBatch && happens(0.5):
		return fault{"pinholing", map[bool]string{true: "first", false: "second"}[first == "MW"], severity}
	case load == hotLoad && shelf == hotShelf && happens(0.6):
		return fault{"blistering", "whole", severity}
	case happens(0.04):
		return fault{[]string{"crawling", "pinholing", "crazing", "specks", "kissing"}[t.r.IntN(5)], "", 1}
	}
	return fault{}
}

// batchOf is the batch that stood in the bucket that day.
func (t *term) batchOf(code string, day time.Time) string {
	name := ""
	for _, b := range t.batches {
		if b.glaze == code && !b.mixed.After(day) {
			name = b.name
		}
	}
	return name
}

func (t *term) log() []byte {
	rows := [][]string{{"piece", "date", "maker", "clay", "bisque", "first", "second", "how", "where", "load", "shelf", "result", "faults", "zone", "severity", "note"}}
	for i := range pieces {
		rows = append(rows, t.piece(i))
	}
	return asCSV(rows)
}

func (t *term) buckets() []byte {
	rows := [][]string{{"glaze", "batch", "mixed", "sg", "sieved", "note"}}
	for _, b := range t.batches {
		rows = append(rows, []string{b.glaze, b.name, b.mixed.Format(time.DateOnly), strconv.FormatFloat(b.sg, 'f', 2, 64), b.mixed.Format(time.DateOnly), b.note})
	}
	return asCSV(rows)
}

func (t *term) firings() []byte {
	rows := [][]string{{"load", "kiln", "date", "schedule", "cones", "note"}}
	for _, l := range t.loads {
		rows = append(rows, []string{l.name, "The little kiln", l.fired.Format(time.DateOnly), l.schedule, l.cones, l.note})
	}
	return asCSV(rows)
}

func asCSV(rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.WriteAll(rows) // a buffer takes everything
	return b.Bytes()
}
