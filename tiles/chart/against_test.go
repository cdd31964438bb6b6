package chart

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A point guessed right lies on the slanting line, one that came out higher
// above it; everything lies on the drawing.
func TestAgainst(t *testing.T) {
	d := Against("Guessed and measured", []Panel{{Name: "L*", Points: []Point{{X: 40, Y: 40}, {X: 30, Y: 60, Far: true}, {X: 80, Y: 20}}}, {Name: "none"}})
	var slant Mark
	var dots, rings []Mark
	for _, m := range d.Marks {
		switch {
		case m.Shape == Line && m.X != m.X2 && m.Y != m.Y2 && slant.X2 == 0:
			slant = m
		case m.Shape == Dot:
			dots = append(dots, m)
		case m.Shape == Ring:
			rings = append(rings, m)
		}
		assert.True(t, m.X >= 0 && m.X <= d.Width && m.Y >= 0 && m.Y <= d.Height, "%+v", m)
	}
	above := func(m Mark) float64 {
		share := (m.X - slant.X) / (slant.X2 - slant.X)
		return slant.Y + share*(slant.Y2-slant.Y) - m.Y
	}
	assert.InDelta(t, 0, above(dots[0]), 1e-9)
	assert.Greater(t, above(dots[1]), 5.0)
	assert.Less(t, above(dots[2]), -5.0)
	assert.Len(t, rings, 1)
	assert.Equal(t, dots[1].X, rings[0].X)
	assert.Contains(t, d.Words, "L*: 3 guessed and measured, 1 of them far off.")
}
