package simulate

import "math"

// RGB is linear light or reflectance, 0–1 a channel, with sRGB primaries.
type RGB [3]float32

// Scene is a flat ground, mm, with blocks standing on it.
type Scene struct {
	Width, Height float64                    // of the ground
	Ground        func(x, y float64) RGB     // reflectance; asked only inside
	Fine          func(x, y float64) bool    // where the ground has detail finer than a pixel
	Beyond        RGB                        // what the ground lies on
	Blocks        []Block                    // tiles and cards
	Bow           func(x, y float64) float64 // height of the ground over flat, mm; nil = flat
	index         grid
}

// Block is a tile: an outline on the ground, its height, its face.
type Block struct {
	X, Y, W, H, Thick float64
	Turn              float64                // degrees to the right about its center
	Face              func(x, y float64) RGB // mm from its own top left corner
	Fine              bool                   // the face has detail finer than a pixel
	sin, cos          float64
}

// prepare sorts the blocks by place, so that a ray is held against few of them.
func (s *Scene) prepare() {
	reaches := make([]box, len(s.Blocks))
	for i := range s.Blocks {
		reaches[i] = s.Blocks[i].prepare()
	}
	s.index = newGrid(reaches)
}

// prepare reckons the block's turn and says how far it and its shadow reach.
func (b *Block) prepare() box {
	b.sin, b.cos = math.Sincos(b.Turn * math.Pi / 180)
	reach := b.Thick*2 + 2
	if b.Turn != 0 {
		reach += math.Hypot(b.W, b.H)/2 - min(b.W, b.H)/2
	}
	return box{b.X - reach, b.Y - reach, b.X + b.W + reach, b.Y + b.H + reach}
}

// local is a place in the block's own coordinates.
func (b *Block) local(x, y float64) (float64, float64) {
	if b.Turn == 0 {
		return x - b.X, y - b.Y
	}
	dx, dy := x-b.X-b.W/2, y-b.Y-b.H/2
	return dx*b.cos + dy*b.sin + b.W/2, -dx*b.sin + dy*b.cos + b.H/2
}

// Corners are the corners of the face from its own top left, clockwise.
func (b Block) Corners() [4][2]float64 {
	sin, cos := math.Sincos(b.Turn * math.Pi / 180)
	var out [4][2]float64
	for i, c := range [4][2]float64{{0, 0}, {b.W, 0}, {b.W, b.H}, {0, b.H}} {
		dx, dy := c[0]-b.W/2, c[1]-b.H/2
		out[i] = [2]float64{b.X + b.W/2 + dx*cos - dy*sin, b.Y + b.H/2 + dx*sin + dy*cos}
	}
	return out
}

func (b *Block) holds(u, v float64) bool { return u >= 0 && v >= 0 && u <= b.W && v <= b.H }

// crosses says whether the way from (u0, v0) to (u1, v1) passes the outline.
func (b *Block) crosses(u0, v0, u1, v1 float64) bool {
	lo, hi := 0.0, 1.0
	for _, a := range [2][3]float64{{u0, u1, b.W}, {v0, v1, b.H}} {
		d := a[1] - a[0]
		if math.Abs(d) < 1e-12 {
			if a[0] < 0 || a[0] > a[2] {
				return false
			}
			continue
		}
		t0, t1 := -a[0]/d, (a[2]-a[0])/d
		lo, hi = max(lo, min(t0, t1)), min(hi, max(t0, t1))
	}
	return lo <= hi
}

// shade is how much of the light a place on the ground gets, past the blocks
// that stand between it and a soft light from direction (dx, dy) a mm of height.
func (s *Scene) shade(x, y, dx, dy float64) float32 {
	light := 1.0
	for _, i := range s.index.near(x, y) {
		b := &s.Blocks[i]
		u, v := b.local(x-dx*b.Thick, y-dy*b.Thick)
		soft := 0.3*b.Thick + 0.2
		in := min(u+soft, b.W-u+soft, v+soft, b.H-v+soft)
		if in > 0 {
			light = min(light, 1-0.55*min(in/(2*soft), 1))
		}
	}
	return float32(light)
}
