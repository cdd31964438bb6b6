package logbook

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

func TestOncePassesOverRowsWrittenTwice(t *testing.T) {
	named := tiles.Piece{ID: "M12", Date: "2026-03-10", Pair: tiles.Pair{First: "QM"}, Result: "good", Line: 2}
	made := tiles.Piece{Maker: "S1", Date: "2026-03-10", Pair: tiles.Pair{First: "KM"}, Faults: []string{"crawled"}, Line: 3}
	nobody := tiles.Piece{Date: "2026-03-10", Pair: tiles.Pair{First: "KM"}, Result: "good", Line: 4}
	waits := tiles.Piece{ID: "M12", Date: "2026-03-10", Pair: tiles.Pair{First: "QM"}, Line: 5}
	again := func(p tiles.Piece, line int) tiles.Piece { p.Line = line; return p }
	named2 := again(named, 6)
	named2.ID, named2.First, named2.Note = "m12", "quarry milk", "again"
	log, d := Once(logOf([]tiles.Piece{named, made, nobody, waits, named2, again(made, 7), again(nobody, 8), again(waits, 9)}), invented)
	var lines []int
	for p := range log {
		lines = append(lines, p.Line)
	}
	assert.Equal(t, []int{2, 3, 4, 5, 8, 9}, lines, "what nobody can tell apart, and what waits, stays")
	assert.Equal(t, []string{"2 rows say again what another row says and are counted once (lines 6, 7)."}, d.Say())
	again2 := slices.Collect(log)
	assert.Len(t, again2, 6, "it may be gone through again")
}

func TestOnceLeavesOutWhatDoesNotAgree(t *testing.T) {
	good := tiles.Piece{ID: "M12", Date: "2026-03-10", Pair: tiles.Pair{First: "QM"}, Result: "good", Line: 2}
	bad := good
	bad.Result, bad.Faults, bad.Line = "", []string{"crawling"}, 9
	other := good
	other.Maker, other.Line = "S2", 11
	log, d := Once(logOf([]tiles.Piece{good, bad, other}), invented)
	assert.Equal(t, []tiles.Piece{other}, slices.Collect(log), "another maker's M12 is another piece")
	assert.Equal(t, []string{"Lines 2 and 9 are about one piece and do not agree: it is left out until one of them is put right."}, d.Say())
}

func TestOnceLeavesAnOrdinaryLogAlone(t *testing.T) {
	list := []tiles.Piece{{ID: "1", Result: "good", Pair: tiles.Pair{First: "QM"}}, {ID: "2", Result: "good", Pair: tiles.Pair{First: "QM"}}}
	log, d := Once(logOf(list), invented)
	assert.Equal(t, list, slices.Collect(log))
	assert.Empty(t, d.Say())
}

func TestClerkTakesNoLoadForALoad(t *testing.T) {
	for _, written := range []string{"unknown", "?", "N/A", " Not sure "} {
		c := NewClerk(invented)
		p := c.Piece(tiles.Piece{Load: written, Shelf: written, Clay: written, Maker: written, How: written})
		assert.Equal(t, tiles.Piece{}, p, written)
		assert.NotEmpty(t, c.Said())
	}
	assert.Equal(t, "none", NewClerk(nil).Piece(tiles.Piece{Bisque: "none"}).Bisque, "that says something")
}
