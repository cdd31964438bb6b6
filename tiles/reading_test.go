package tiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestChooseTrustsTheLeastDoubt(t *testing.T) {
	rs := []Reading{
		{Tile: 7, Zone: ZoneOverlap, Photo: "7.jpg", Doubt: 9, Kept: 1},
		{Tile: 7, Zone: ZoneOverlap, Photo: "7 mat.jpg", Doubt: 2, Kept: 0.8},
		{Tile: 7, Zone: ZoneOverlap, Photo: "7 old.jpg", Doubt: 0, Kept: 1},
		{Tile: 8, Zone: ZoneOverlap, Photo: "8.jpg", Doubt: 1},
	}
	got, ok := Choose(rs, 7, ZoneOverlap)
	assert.True(t, ok)
	assert.Equal(t, "7 mat.jpg", got.Photo, "a doubt that is not known is no trust")

	_, ok = Choose(rs, 7, ZoneFirst)
	assert.False(t, ok)
}

func TestColorOfAPairIsItsOverlap(t *testing.T) {
	rs := []Reading{
		{Tile: 7, Zone: ZoneFirst, L: 1, Doubt: 1},
		{Tile: 7, Zone: ZoneOverlap, L: 2, Doubt: 3},
		{Tile: 1, Zone: ZoneWhole, L: 3, Doubt: 3},
	}
	pair, _ := ColorOf(rs, 7)
	assert.Equal(t, 2.0, pair.L)
	single, _ := ColorOf(rs, 1)
	assert.Equal(t, 3.0, single.L)
	_, ok := ColorOf(rs, 99)
	assert.False(t, ok)
}
