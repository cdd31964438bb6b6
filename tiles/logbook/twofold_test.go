package logbook

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

// A form's list of choices often says code and name in one.
func TestAGlazeWrittenByCodeAndName(t *testing.T) {
	c := NewClerk([]tiles.Glaze{{Code: "FM", Name: "Fen Mist"}, {Code: "OH", Name: "Oat Husk (new)"}})
	for _, written := range []string{"FM", "fm", "fen mist", "FM - Fen Mist", "Fen Mist (FM)", "Fen Mist – FM", "FM: Fen Mist", " fm (Fen  Mist) "} {
		assert.Equal(t, "FM", c.Piece(tiles.Piece{Pair: tiles.Pair{First: written}}).First, written)
	}
	assert.Empty(t, c.Unknown())
	assert.Equal(t, "OH", c.Piece(tiles.Piece{Pair: tiles.Pair{First: "Oat Husk (new)"}}).First)
	for _, other := range []string{"FM - Oat Husk (new)", "Fen Mist (XX)", "FM -", "(FM)"} {
		assert.Equal(t, other, c.Piece(tiles.Piece{Pair: tiles.Pair{First: other}}).First, other)
	}
}
