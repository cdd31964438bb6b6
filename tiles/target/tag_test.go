package target

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// Any two tags differ in 8 cells or more: the code is linear, so its least
// distance is the least weight of a word. 8 is the distance of the extended
// (64,45) BCH code in the tables of Lin and Costello, Error Control Coding.
func TestTagsDifferInEightCells(t *testing.T) {
	zero := plain
	for n := tiles.Number(1); n <= tiles.MaxNumber; n++ {
		require.GreaterOrEqual(t, Tag(n).Distance(zero), 8, "tile %d", n)
	}
	require.Equal(t, 8, nearestPair(1, 400), "a few hundred tiles in a row")
}

func nearestPair(from, to tiles.Number) int {
	least := Side * Side
	for n := from; n <= to; n++ {
		for m := n + 1; m <= to; m++ {
			least = min(least, Tag(n).Distance(Tag(m)))
		}
	}
	return least
}

// tagNumber reads a tag that was seen upright and without error.
func tagNumber(b Bits) (tiles.Number, bool) {
	n := tiles.Number((b ^ plain) >> (checkBits + 1))
	if n < 1 || n > tiles.MaxNumber || Tag(n) != b {
		return 0, false
	}
	return n, true
}

func TestTagNumberReadsBack(t *testing.T) {
	for n := tiles.Number(1); n <= tiles.MaxNumber; n += 97 {
		got, ok := tagNumber(Tag(n))
		require.True(t, ok)
		require.Equal(t, n, got)
		_, ok = tagNumber(Tag(n) ^ 1<<17)
		require.False(t, ok, "one wrong cell in the tag of tile %d", n)
	}
}

func TestNoTagOutsideTheNumbers(t *testing.T) {
	for _, n := range []tiles.Number{-1, 0, tiles.MaxNumber + 1} {
		require.Zero(t, Tag(n))
	}
	_, ok := tagNumber(0)
	require.False(t, ok)
}

// No tag looks like a mark of the mat or board, however it is turned, even
// with two cells misread.
func TestTagsAreFarFromMarks(t *testing.T) {
	least := Side * Side
	for n := tiles.Number(1); n <= tiles.MaxNumber; n++ {
		for _, c := range codes {
			d, _ := c.Nearest(Tag(n))
			least = min(least, d)
		}
	}
	t.Logf("nearest tag to a mark: %d cells", least)
	require.GreaterOrEqual(t, least, 3)
}
