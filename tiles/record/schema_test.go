package record

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// TestReadingsThatCameBitByBitStandAsIfAtOnce writes readings in the order in
// which their photos came; a remark goes with its row, and an order of the
// owner's own stays.
func TestReadingsThatCameBitByBitStandAsIfAtOnce(t *testing.T) {
	var all []tiles.Reading
	for _, photo := range []string{"1.jpg", "2.jpg", "5.jpg", "5 b.jpg", "7.jpg"} {
		r := tiles.Reading{Tile: tiles.Number(photo[0] - '0'), Zone: tiles.ZoneWhole, Photo: photo}
		r.L = 50
		all = append(all, r)
	}
	once, bits := folder.At(t.TempDir()), folder.At(t.TempDir())
	require.NoError(t, WriteReadings(once, all))
	for _, some := range [][]int{{1}, {1, 2, 4}, {0, 1, 2, 4}, {0, 1, 2, 3, 4}} {
		var rs []tiles.Reading
		for _, i := range some {
			rs = append(rs, all[i])
		}
		require.NoError(t, WriteReadings(bits, rs))
	}
	whole := get(t, once.Dir(), MeasuredFile)
	require.Equal(t, whole, get(t, bits.Dir(), MeasuredFile))

	lines := strings.SplitAfter(whole, "\n")
	head, one, five := lines[0], lines[1], lines[3]
	for was, becomes := range map[string]string{
		one + "# glossy\n" + five:   "1 2 # glossy 5",
		five + one + "# the end\n":  "5 1 2 # the end",
		"# first\n" + five + "\n":   "1 2 # first 5",
		one + "# a\n# b\n" + five:   "1 2 # a # b 5",
		"# all\n" + one + five + "": "# all 1 2 5",
	} {
		require.NoError(t, bits.WriteBytes(MeasuredFile, []byte(head+was)))
		require.NoError(t, WriteReadings(bits, []tiles.Reading{all[0], all[1], all[2]}))
		var got []string
		for _, line := range strings.Split(strings.TrimSpace(get(t, bits.Dir(), MeasuredFile)), "\n")[1:] {
			first, _, _ := strings.Cut(line, ",")
			got = append(got, first)
		}
		require.Equal(t, becomes, strings.TrimSpace(strings.Join(got, " ")), was)
	}
}
