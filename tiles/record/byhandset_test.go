package record

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

func TestWhatIsSaidOfAPhotoChangesItsRowAlone(t *testing.T) {
	const kept = "# ours\r\nphoto;note; tile ;outline\r\n\"a;b.jpg\";mine; 7 ;\r\n\r\n# board\r\nwall.jpg;;1;\r\nwall.jpg;;2;0 0 9 0 9 9 0 9\r\nwall.jpg;;card;0 0 9 0 9 9 0 9"
	outline := [4][2]float64{{10, 20}, {110.5, 20}, {110.5, 220}, {10, 220}}
	for name, one := range map[string]struct {
		set      tiles.ByHand
		old, now string // of one line; "" = none
	}{
		"another number":    {tiles.ByHand{Photo: "a;b.jpg", Tile: 31}, `"a;b.jpg";mine; 7 ;`, `"a;b.jpg";mine;31;`},
		"and an outline":    {tiles.ByHand{Photo: "a;b.jpg", Tile: 7, Outline: outline, Drawn: true}, `"a;b.jpg";mine; 7 ;`, `"a;b.jpg";mine; 7 ;10 20 110.5 20 110.5 220 10 220`},
		"a tile of a board": {tiles.ByHand{Photo: "wall.jpg", Tile: 2}, "wall.jpg;;2;0 0 9 0 9 9 0 9", "wall.jpg;;2;"},
		"a new photo":       {tiles.ByHand{Photo: "7 back.heic", Tile: 9}, "", "7 back.heic;;9;"},
		"as found again":    {tiles.ByHand{Photo: "a;b.jpg"}, `"a;b.jpg";mine; 7 ;`, ""},
		"nothing, of none":  {tiles.ByHand{Photo: "x.jpg"}, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			after, err := WithByHand([]byte(kept), one.set)
			require.NoError(t, err)
			want := kept
			switch {
			case one.old != "" && one.now != "":
				want = strings.Replace(kept, one.old, one.now, 1)
			case one.old != "":
				want = strings.Replace(kept, one.old+"\r\n", "", 1)
			case one.now != "":
				want = kept + "\r\n" + one.now + "\r\n"
			}
			require.Equal(t, strings.TrimRight(want, "\r\n"), strings.TrimRight(string(after), "\r\n"))
		})
	}
	after, err := WithByHand(nil, tiles.ByHand{Photo: "=1+1.jpg", Tile: 3})
	require.NoError(t, err)
	got, err := ParseByHand(after)
	require.NoError(t, err)
	require.Equal(t, tiles.Number(3), got[0].Tile)
	require.Equal(t, "=1+1.jpg", got[0].Photo)
	_, err = WithByHand(nil, tiles.ByHand{Photo: "1.jpg", Outline: [4][2]float64{{0, 0}, {0, 9}, {9, 9}, {9, 0}}, Drawn: true})
	require.ErrorContains(t, err, "clockwise")
}
