package measure

import (
	"image"

	"github.com/twodip/twodip/tiles/photo"
)

// mosaic is a part of a photo as square blocks of a few pixels: their mean
// linear light, and which of them are near a blown pixel. Everything later
// works on blocks; every pixel is looked at once.
type mosaic struct {
	bounds image.Rectangle // pixels of the photo
	side   int             // pixels along a block
	w, h   int             // blocks
	light  [][3]float32
	blown  []bool // a channel is blown there or near it
	white  []bool // all three channels are

	// Memory used again from one zone and one photo to the next.
	codes     []uint16
	in        []placed
	weight    []float32
	lightness []float32
}

// blownCode is the code of 255 from which a channel counts as blown.
const blownCode = 250

// spread of a blown pixel at full size: it lightens its neighbors by blur,
// demosaicing and sharpening.
const (
	fullSize     = 4000 // pixels along the longer side of a 12-megapixel photo
	blockAtFull  = 4
	spreadBlocks = 2 // 8 pixels at full size: 6 at least, wherever in its block the pixel lies
)

// read takes in the part of the photo, reusing m's memory.
func (m *mosaic) read(p *photo.Photo, part image.Rectangle) {
	m.bounds = part.Intersect(p.Image.Bounds())
	longest := max(p.Width(), p.Height())
	m.side = max(1, (blockAtFull*longest+fullSize/2)/fullSize)
	m.w = (m.bounds.Dx() + m.side - 1) / m.side
	m.h = (m.bounds.Dy() + m.side - 1) / m.side
	m.light = zeroed(m.light, m.w*m.h)
	m.blown, m.white = zeroed(m.blown, m.w*m.h), zeroed(m.white, m.w*m.h)
	m.codes = zeroed(m.codes, 3*m.bounds.Dx())
	codes := m.codes
	top := uint16(uint32(p.Top()) * blownCode / 255)
	for y := range m.bounds.Dy() {
		p.Codes(m.bounds.Min.Y+y, m.bounds.Min.X, m.bounds.Max.X, codes)
		at := y / m.side * m.w
		addRow(m.light[at:at+m.w], m.blown[at:at+m.w], m.white[at:at+m.w], codes, m.side, p.Light(), top)
	}
	m.average()
	m.spread(m.blown)
	m.spread(m.white)
}

// addRow adds a row of pixels to a row of blocks.
func addRow(light [][3]float32, blown, white []bool, codes []uint16, side int, tables *[3][]float32, top uint16) {
	red, green, blue := tables[0], tables[1], tables[2]
	for b := range light {
		px := codes[3*b*side : min(3*(b+1)*side, len(codes))]
		var r, g, bl float32
		for i := 0; i+3 <= len(px); i += 3 {
			cr, cg, cb := px[i], px[i+1], px[i+2]
			r, g, bl = r+red[cr], g+green[cg], bl+blue[cb]
			if cr >= top || cg >= top || cb >= top {
				blown[b] = true
				white[b] = white[b] || cr >= top && cg >= top && cb >= top
			}
		}
		l := &light[b]
		l[0], l[1], l[2] = l[0]+r, l[1]+g, l[2]+bl
	}
}

// average turns sums into means; blocks at the right and the bottom may hold
// fewer pixels.
func (m *mosaic) average() {
	for y := range m.h {
		rows := min(m.side, m.bounds.Dy()-y*m.side)
		for x := range m.w {
			n := float32(rows * min(m.side, m.bounds.Dx()-x*m.side))
			l := &m.light[y*m.w+x]
			l[0], l[1], l[2] = l[0]/n, l[1]/n, l[2]/n
		}
	}
}

// spread marks the blocks around each marked one, across and then down.
func (m *mosaic) spread(marked []bool) {
	for y := range m.h {
		widen(marked[y*m.w:(y+1)*m.w], 1, m.w)
	}
	for x := range m.w {
		widen(marked[x:], m.w, m.h)
	}
}

// widen sets the neighbors, within spreadBlocks, of what is set among n flags
// that lie step apart.
func widen(flags []bool, step, n int) {
	since := spreadBlocks + 1 // steps since the last flag that was set before
	for i := range n {
		at := i * step
		if flags[at] {
			for back := 1; back <= spreadBlocks && back <= i; back++ {
				flags[at-back*step] = true
			}
			since = 0
			continue
		}
		if since++; since <= spreadBlocks {
			flags[at] = true
		}
	}
}

// center is the middle of a block in upright pixels of the photo.
func (m *mosaic) center(x, y int) (float64, float64) {
	half := float64(m.side) / 2
	return float64(m.bounds.Min.X+x*m.side) + half, float64(m.bounds.Min.Y+y*m.side) + half
}

// blocksIn is the range of blocks that a part of the photo touches.
func (m *mosaic) blocksIn(part image.Rectangle) image.Rectangle {
	part = part.Sub(m.bounds.Min)
	r := image.Rect(part.Min.X/m.side, part.Min.Y/m.side, part.Max.X/m.side+1, part.Max.Y/m.side+1)
	return r.Intersect(image.Rect(0, 0, m.w, m.h))
}

// zeroed is a slice of n zeros, in the memory of s where it is large enough.
func zeroed[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}
