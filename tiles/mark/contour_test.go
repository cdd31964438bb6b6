package mark

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// bitmap makes dark bits of rows of text, '#' being dark, with a border.
func bitmap(rows ...string) (bits []uint8, stride int) {
	stride = len(rows[0]) + 2
	bits = make([]uint8, stride*(len(rows)+2))
	for y, row := range rows {
		for x, c := range row {
			if c == '#' {
				bits[(y+1)*stride+x+1] = 1
			}
		}
	}
	return bits, stride
}

func TestWalkGoesRoundARegion(t *testing.T) {
	bits, stride := bitmap(
		"......",
		".####.",
		".#..#.",
		".####.",
		"......",
	)
	outer := walk(bits, stride, 2, 2, nil)
	require.Equal(t, 2*4*3, outer.area, "twice the area, hole and all")
	require.Len(t, outer.points, 14, "the way around 4 × 3 pixels")
	require.Equal(t, []int{2, 2, 6, 5}, []int{outer.x0, outer.y0, outer.x1, outer.y1}, "one more than in the picture: the border")
	inner := walk(bits, stride, 5, 3, nil)
	require.Negative(t, inner.area, "a hole is walked the other way")
}

func TestRegionsThatTouchByACornerAreApart(t *testing.T) {
	bits, stride := bitmap("##..", "##..", "..##", "..##")
	c := walk(bits, stride, 1, 1, nil)
	require.Equal(t, 2*4, c.area)
}

func TestOutlinesLeaveOutWhatIsSmallOrStringy(t *testing.T) {
	var rows []string
	for range 40 {
		rows = append(rows, "....................#...................")
	}
	rows[5] = "..###..................................."
	bits, stride := bitmap(rows...)
	outlines(bits, stride, func(contour) { t.Fatal("nothing here is a square") })
}
