package target_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// The sizes are those of ISO/IEC 18004, table 7, which for level L gives 25
// alphanumeric characters to 21 modules, and 32 and 53 bytes to 25 and 29.
func TestCodesTakeAsFewModulesAsTheyCan(t *testing.T) {
	for payload, want := range map[string]int{
		tiles.MaxNumber.Payload(""): 21,
		strings.Repeat("A", 25):     21,
		strings.Repeat("A", 26):     25,
		strings.Repeat("a", 32):     25,
		strings.Repeat("a", 33):     29,
		strings.Repeat("a", 53):     29,
		strings.Repeat("a", 54):     33,
	} {
		c, err := target.NewQR(payload)
		require.NoError(t, err)
		require.Equal(t, want, c.Modules(), payload)
	}
	_, err := target.NewQR(strings.Repeat("a", 4000))
	require.ErrorContains(t, err, "a QR code cannot hold")
}

// A code is found again among all formats: the one that NewQR chose.
func TestACodeCanBeMadeAgain(t *testing.T) {
	payload := tiles.Number(7).Payload("https://wall.example")
	c, err := target.NewQR(payload)
	require.NoError(t, err)
	same := 0
	for level := target.LevelL; level <= target.LevelH; level++ {
		for mask := range 8 {
			d, err := target.QRLike(payload, target.QRFormat{Modules: c.Modules(), Level: level, Mask: mask})
			if err == nil && equal(c, d) {
				same++
			}
		}
	}
	require.Equal(t, 1, same)
	_, err = target.QRLike(payload, target.QRFormat{Modules: 21})
	require.Error(t, err)
}

func equal(c, d target.QR) bool {
	for i := range c.Modules() * c.Modules() {
		x, y := i%c.Modules(), i/c.Modules()
		if c.Dark(x, y) != d.Dark(x, y) {
			return false
		}
	}
	return true
}
