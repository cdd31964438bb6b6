package logbook

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// TestASeasonAtAGlance counts pieces around the turn of a year whose first days
// belong to the week before: 2027-01-01 is a Friday of the week that begins on
// Monday, 2026-12-28 (ISO 8601-1:2019, 4.3.2: a week begins on Monday).
func TestASeasonAtAGlance(t *testing.T) {
	glazes := []tiles.Glaze{{Code: "QM", Name: "Quarry Milk"}, {Code: "FG", Name: "Fen Glass"}}
	piece := func(id, date, first, second, load, result string, faults ...string) tiles.Piece {
		return tiles.Piece{ID: id, Date: date, Pair: tiles.Pair{First: first, Second: second}, Load: load, Result: result, Faults: faults}
	}
	s := Count(slices.Values([]tiles.Piece{
		piece("1", "2027-01-01", "qm", "FG", "G2", "good"),
		piece("2", "2026-12-27", "QM", "FG", "G1", "", "crawled", "pinholes"), // a Sunday
		piece("2", "2026-12-27", "QM", "FG", "G1", "", "crawled", "pinholes"), // said again
		piece("3", "2027-01-12", "FG", "FG", "G2", "", "crawling"),
		piece("4", "", "QM", "", "", ""),
	}), glazes)
	assert.Equal(t, 4, s.All.Pieces)
	assert.Equal(t, []int{1, 2, 1}, []int{s.All.Well, s.All.Faulty, s.All.Waiting})
	assert.Equal(t, []string{"crawling", "pinholing"}, s.All.Words())
	assert.Equal(t, 2, s.All.Faults["crawling"])
	assert.Equal(t, 1, s.Undated)

	require.Len(t, s.Weeks, 4, "the empty week is there")
	var mondays []string
	var counts []int
	for _, w := range s.Weeks {
		mondays, counts = append(mondays, w.Monday.Format("2006-01-02")), append(counts, w.Pieces)
	}
	assert.Equal(t, []string{"2026-12-21", "2026-12-28", "2027-01-04", "2027-01-11"}, mondays)
	assert.Equal(t, []int{1, 1, 0, 1}, counts)

	require.Len(t, s.Loads, 2)
	assert.Equal(t, []string{"G1", "G2"}, []string{s.Loads[0].Name, s.Loads[1].Name})
	assert.Equal(t, 1, s.Loads[1].Faulty)

	require.Len(t, s.Glazes, 2)
	assert.Equal(t, []int{3, 3, 0}, []int{s.Glazes[0].Pieces, s.Glazes[0].Under, s.Glazes[0].Over})
	assert.Equal(t, []int{3, 1, 3}, []int{s.Glazes[1].Pieces, s.Glazes[1].Under, s.Glazes[1].Over}, "a piece with one glaze twice is one piece")
	assert.Equal(t, tiles.Pair{First: "QM", Second: "FG"}, s.Pairs[0].Pair)
	assert.Equal(t, 2, s.Pairs[0].Pieces)
	assert.Empty(t, Count(slices.Values([]tiles.Piece(nil)), glazes).Weeks)
}
