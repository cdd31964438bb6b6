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

// term is the invented studio's year. Four causes of faults are planted in its
// spring, so that a trace has something to find: a pair that runs, a glaze that
// crawls over glossy coats, one bad batch, one hot shelf in one firing.
// Everything else goes wrong once in twenty-five.
type term struct {
	r       *rand.Rand
	codes   []string
	batches []batch
	bisques []firing
	glazes  []firing
}

const (
	pieces       = 430
	badBatch     = "MW-2"
	changedBatch = "TB-2" // its re-test comes out lighter and less blue
	sameBatch    = "PP-2" // its re-test comes out as before
	hotLoad      = "G16"
	hotShelf     = "top"
	daysOfClass  = 4
)

var (
	shelves   = []string{"top", "middle", "bottom"}
	favorites = []string{"QM", "TB", "HS", "SF"}
	glossy    = []string{"PI", "FG", "HG", "TB"}
)

func newTerm() *term {
	t := &term{r: rand.New(rand.NewPCG(Seed, 0x7465_726d)), bisques: bisqueFirings(), glazes: glazeFirings()[autumnWeeks:]}
	for code := range looks {
		t.codes = append(t.codes, code)
	}
	slices.Sort(t.codes)
	t.mixAll()
	return t
}

// fault is what went wrong with one piece; the zero value is nothing.
type fault struct {
	word, zone string
	severity   int
}

// piece glazes, fires and judges the i-th piece.
func (t *term) piece(i int) []string {
	week := i * springWeeks / pieces
	day := springStart.AddDate(0, 0, 7*week+t.r.IntN(daysOfClass))
	first, second := t.choose()
	shelf := shelves[t.r.IntN(len(shelves))]
	load := t.glazes[week].name
	f := t.judge(first, second, load, shelf, day)
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
		[]string{"buff stoneware", "buff stoneware", "white stoneware"}[t.r.IntN(3)], t.bisqueOf(day),
		first, second, "dipped", where, load, shelf, result, f.word, f.zone, severity, "",
	}
}

// bisqueOf is the bisque firing a piece came from: mostly the last one that
// was unpacked, for some stand on the shelf for weeks.
func (t *term) bisqueOf(day time.Time) string {
	ready := 0
	for ready < len(t.bisques) && t.bisques[ready].day.Before(day.AddDate(0, 0, -1)) {
		ready++
	}
	back := 1
	for back < ready && t.r.IntN(3) == 0 {
		back++
	}
	return t.bisques[ready-back].name
}

// choose picks glazes as students do: favorites more often, one coat in five.
func (t *term) choose() (first, second string) {
	pick := func() string {
		if t.r.IntN(5) < 2 {
			return favorites[t.r.IntN(len(favorites))]
		}
		return t.codes[t.r.IntN(len(t.codes))]
	}
	switch {
	case t.r.IntN(12) == 0:
		return "HG", "SF"
	case t.r.IntN(9) == 0:
		return glossy[t.r.IntN(len(glossy))], "OH"
	case t.r.IntN(14) == 0:
		return "MW", favorites[t.r.IntN(len(favorites))]
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
	case (first == "MW" || second == "MW") && t.inBucket("MW", day).name == badBatch && happens(0.6):
		return fault{"pinholing", map[bool]string{true: "first", false: "second"}[first == "MW"], severity}
	case load == hotLoad && shelf == hotShelf && happens(0.6):
		return fault{"blistering", "whole", severity}
	case happens(0.04):
		return fault{[]string{"crawling", "pinholing", "crazing", "specks", "kissing"}[t.r.IntN(5)], "", 1}
	}
	return fault{}
}

func (t *term) log() []byte {
	rows := [][]string{{"piece", "date", "maker", "clay", "bisque", "first", "second", "how", "where", "load", "shelf", "result", "faults", "zone", "severity", "note"}}
	for i := range pieces {
		rows = append(rows, t.piece(i))
	}
	return asCSV(rows)
}

func asCSV(rows [][]string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.WriteAll(rows) // a buffer takes everything
	return b.Bytes()
}
