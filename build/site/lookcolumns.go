package site

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// addLook adds what a tile's drawing and photo need: the colors of its sides
// and the size of its photo, so that a page keeps the place before it comes.
func (c *columns) addLook(m *maker, h *hung, sizes map[[2]int]int) {
	c.Sides = append(c.Sides, m.side(h, tiles.ZoneFirst), m.side(h, tiles.ZoneSecond))
	if !h.thumb.ok() {
		c.Size = append(c.Size, -1)
		return
	}
	size := [2]int{h.thumb.Width, h.thumb.Height}
	at, ok := sizes[size]
	if !ok {
		at = len(c.Sizes)
		sizes[size] = at
		c.Sizes = append(c.Sizes, size)
	}
	c.Size = append(c.Size, at)
}

// side is the color of one zone as one number, or -1.
func (m *maker) side(h *hung, z tiles.Zone) int {
	r, ok := tiles.Choose(m.readings[h.Number], h.Number, z)
	if !ok || h.Single() {
		return -1
	}
	return onScreen(labOf(r))
}

// onScreen is a color's red, green and blue as one number.
func onScreen(c color.Lab) int {
	r, g, b, _ := c.Screen()
	return int(r)<<16 | int(g)<<8 | int(b)
}
