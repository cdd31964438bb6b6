package logbook

import (
	"fmt"
	"hash/maphash"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Doubles is what stands in a log more than once.
type Doubles struct {
	Twice   []int    `json:"twice"`   // lines of rows that say again what another says; at most unknownLines of them
	Rows    int      `json:"rows"`    // how many such rows there are
	Against [][2]int `json:"against"` // lines of two rows on one piece that do not agree on what became of it; at most unknownLines
	Pieces  int      `json:"pieces"`  // how many such pieces there are
}

// Once is the log with every piece in it once: a row that says again what
// another said is passed over, and so are all rows of a piece whose rows do not
// agree. A piece is known by its name, day and maker; one without a name by
// its whole row, where that says who made it and when. Others may be as many
// as there are rows.
func Once(log Log, glazes []tiles.Glaze) (Log, Doubles) {
	seed, clerk := maphash.MakeSeed(), NewClerk(glazes)
	first := map[uint64]outcome{}
	apart := map[uint64]bool{}
	var d Doubles
	for row := range log {
		key, is, ok := outcomeOf(seed, clerk.Piece(row))
		switch was, seen := first[key]; {
		case !ok:
		case !seen:
			first[key] = is
		case was.says == is.says:
			d.Rows++
			if len(d.Twice) < unknownLines {
				d.Twice = append(d.Twice, is.line)
			}
		case !apart[key]:
			apart[key] = true
			d.Pieces++
			if len(d.Against) < unknownLines {
				d.Against = append(d.Against, [2]int{was.line, is.line})
			}
		}
	}
	if d.Rows+d.Pieces == 0 {
		return log, d
	}
	return func(yield func(tiles.Piece) bool) {
		again := NewClerk(glazes)
		seen := map[uint64]bool{}
		for row := range log {
			key, _, ok := outcomeOf(seed, again.Piece(row))
			if ok && (apart[key] || seen[key]) {
				continue
			}
			if ok {
				seen[key] = true
			}
			if !yield(row) {
				return
			}
		}
	}, d
}

// outcome is what a row says became of its piece, as a hash, and its line.
type outcome struct {
	says uint64
	line int
}

// outcomeOf says which piece a row is about and what it says; ok is false for
// one that waits, and where nobody can tell it from the next.
func outcomeOf(seed maphash.Seed, p tiles.Piece) (key uint64, is outcome, ok bool) {
	if !Opened(p) || p.ID == "" && (p.Maker == "" || p.Date == "") {
		return 0, is, false
	}
	faults := slices.Sorted(slices.Values(p.Faults))
	says := []string{p.First, p.Second, strings.Join(p.More, ";"), p.Load, p.Shelf, p.Clay, p.Bisque, p.How, strings.Join(faults, ";")}
	who := []string{tiles.Fold(p.ID), p.Date, tiles.Fold(p.Maker)}
	if p.ID == "" {
		who = append(append(who, says...), string(p.Zone), strconv.Itoa(p.Severity), p.Note)
	}
	return maphash.String(seed, strings.Join(who, "\x00")), outcome{maphash.String(seed, strings.Join(says, "\x00")), p.Line}, true
}

// Say says what stands twice in the log, a sentence an item.
func (d Doubles) Say() []string {
	var says []string
	if d.Rows > 0 {
		says = append(says, fmt.Sprintf("%s again what another row says and %s counted once (%s).",
			english.Count(d.Rows, "row says", "rows say"), english.Number(d.Rows, "is", "are"), inLines(d.Twice, d.Rows)))
	}
	for _, lines := range d.Against {
		says = append(says, fmt.Sprintf("Lines %d and %d are about one piece and do not agree: it is left out until one of them is put right.", lines[0], lines[1]))
	}
	if more := d.Pieces - len(d.Against); more > 0 {
		says = append(says, fmt.Sprintf("%s more %s rows that do not agree.", english.Count(more, "piece", "pieces"), english.Number(more, "has", "have")))
	}
	return says
}

// inLines says in which lines something stands: "lines 7, 12 …".
func inLines(lines []int, times int) string {
	words := make([]string, len(lines))
	for i, l := range lines {
		words[i] = strconv.Itoa(l)
	}
	more := ""
	if times > len(lines) {
		more = " …"
	}
	return english.Number(len(lines), "line ", "lines ") + strings.Join(words, ", ") + more
}
