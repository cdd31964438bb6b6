package munsell

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The central notations of Kelly, "Central notations for the revised ISCC–NBS
// color-name blocks", J. Res. NBS 61 (1958) 427–431 (RP2911).
func TestEveryCentroidFallsInItsOwnBlock(t *testing.T) {
	rows := reference(t, "iscc-nbs/kelly1958_centroids_munsell.csv")
	require.Len(t, rows, Blocks)
	for i, r := range rows {
		b := centroid(t, r[2]).Block()
		assert.Equal(t, Block(i+1), b, r[2])
		if b != 81 { // "dark grayish yellow brown" in 1958, "yellowish" in SP 440
			assert.Equal(t, r[1], b.Name(Fine), r[2])
		}
	}
}

// centroid reads "1.5R 7/13" and "N 9.25/".
func centroid(t *testing.T, s string) Notation {
	name, rest, _ := strings.Cut(s, " ")
	value, chroma, _ := strings.Cut(rest, "/")
	if name == "N" {
		return Notation{0, number(t, value), 0}
	}
	hue, err := ParseHue(name)
	require.NoError(t, err)
	return Notation{hue, number(t, value), number(t, chroma)}
}

func TestBlocksLeaveNoGapAndDoNotOverlap(t *testing.T) {
	for hue := 0.25; hue < 100; hue += 0.5 {
		for value := 0.05; value < 10; value += 0.25 {
			for chroma := 0.05; chroma < 20; chroma += 0.25 {
				require.Equal(t, 1, holders(Notation{hue, value, chroma}), "%v %v/%v", hue, value, chroma)
			}
		}
	}
}

func holders(n Notation) (count int) {
	for i := range slices() {
		if !slices()[i].holds(n.Hue) {
			continue
		}
		for _, b := range slices()[i].blocks {
			if b.chroma <= n.Chroma && n.Chroma < b.toChroma && b.value <= n.Value && n.Value < b.toValue {
				count++
			}
		}
	}
	return count
}

func TestThereAre13And29And267Names(t *testing.T) {
	for level, want := range map[int]int{Coarse: 13, Middle: 29, Fine: 267} {
		seen := map[string]bool{}
		for b := Block(1); b <= Blocks; b++ {
			seen[b.Name(level)] = true
		}
		assert.Len(t, seen, want)
	}
}
