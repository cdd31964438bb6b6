package color

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEveryScreenColorIsItsOwnHex(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, g, b := rapid.Byte().Draw(t, "r"), rapid.Byte().Draw(t, "g"), rapid.Byte().Draw(t, "b")
		gr, gg, gb, shown := FromSRGB(r, g, b).Screen()
		if !shown || gr != r || gg != g || gb != b {
			t.Fatalf("%d %d %d came back as %d %d %d, shown %v", r, g, b, gr, gg, gb, shown)
		}
	})
}

func TestOutOfGamutKeepsLightnessAndHue(t *testing.T) {
	for _, c := range []Lab{{50, -70, -30}, {60, 90, 80}, {85, -90, 20}, {20, 60, -110}} {
		hex, shown := c.Hex()
		assert.False(t, shown, "%v", c)
		got, err := Parse(hex)
		require.NoError(t, err)
		assert.InDelta(t, c.L, got.L, 0.5, "L* of %v", c)
		turn := math.Remainder(c.Hue()-got.Hue(), 360)
		assert.InDelta(t, 0, turn, 1, "hue of %v", c)
		assert.Less(t, got.Chroma(), c.Chroma())
	}
}

func TestHexOfBlackWhiteAndNonsense(t *testing.T) {
	for c, want := range map[Lab]string{{}: "#000000", {L: 100}: "#ffffff", {L: 140}: "#ffffff", {L: -5}: "#000000"} {
		hex, _ := c.Hex()
		assert.Equal(t, want, hex)
	}
}
