package demo

import (
	"math"
	"math/rand/v2"
)

// A field is a square of noise that repeats at its edges, 0–1, one value a
// pixel. Fields are made once; a tile reads them at places of its own.
type field struct{ at []float32 }

const (
	fieldSize = 1024 // pixels, a power of two
	fieldMask = fieldSize - 1
)

// get reads the field at a pixel, whichever.
func (f *field) get(x, y int) float32 {
	return f.at[(y&fieldMask)*fieldSize+(x&fieldMask)]
}

// fields is every kind of noise that a fired surface is made of.
type fields struct {
	broad  field // clouds of about 25 mm: uneven thickness
	mottle field // clouds of about 3 mm
	flow   field // the same, drawn down the face
	grain  field // clay and stones, finer than 0.3 mm
	cells  field // distance to the middle of a cell of about 5 mm
	cracks field // distance to a cell's border
}

func newFields(seed uint64) *fields {
	r := rand.New(rand.NewPCG(seed, 0x7161_7a75))
	f := &fields{
		broad:  clouds(r, 5, 5, 3),
		mottle: clouds(r, 44, 44, 4),
		flow:   clouds(r, 80, 9, 4),
		grain:  clouds(r, 256, 256, 2),
	}
	// Bending hides the lattice the clouds were made on.
	f.mottle = bend(f.mottle, clouds(r, 20, 20, 2), 46)
	f.broad = bend(f.broad, clouds(r, 7, 7, 2), 150)
	f.flow = bend(f.flow, f.broad, 60)
	f.cells, f.cracks = cells(r, 22)
	return f
}

// clouds sums octaves of value noise on a lattice of nx × ny knots, each
// octave twice as fine and half as strong, and stretches the sum to 0–1.
func clouds(r *rand.Rand, nx, ny, octaves int) field {
	out := field{make([]float32, fieldSize*fieldSize)}
	weight := float32(1)
	for range octaves {
		if nx > fieldSize/2 {
			break
		}
		addOctave(out.at, r, nx, ny, weight)
		nx, ny, weight = nx*2, ny*2, weight*0.55
	}
	return stretch(out)
}

func addOctave(out []float32, r *rand.Rand, nx, ny int, weight float32) {
	knots := make([]float32, nx*ny)
	for i := range knots {
		knots[i] = r.Float32()
	}
	for y := range fieldSize {
		gy := float64(y) * float64(ny) / fieldSize
		y0 := int(gy)
		fy := ease(float32(gy - float64(y0)))
		top, low := knots[y0*nx:(y0+1)*nx], knots[((y0+1)%ny)*nx:]
		for x := range fieldSize {
			gx := float64(x) * float64(nx) / fieldSize
			x0 := int(gx)
			x1 := (x0 + 1) % nx
			fx := ease(float32(gx - float64(x0)))
			a := top[x0] + (top[x1]-top[x0])*fx
			b := low[x0] + (low[x1]-low[x0])*fx
			out[y*fieldSize+x] += weight * (a + (b-a)*fy)
		}
	}
}

// ease is the quintic fade curve 6t⁵ − 15t⁴ + 10t³, whose first and second
// derivatives vanish at both ends.
func ease(t float32) float32 { return t * t * t * (t*(t*6-15) + 10) }

// stretch spreads a field by its own mean and deviation, so that ±2 deviations
// fill 0–1.
func stretch(f field) field {
	var sum, square float64
	for _, v := range f.at {
		sum += float64(v)
		square += float64(v) * float64(v)
	}
	n := float64(len(f.at))
	mean := sum / n
	dev := math.Sqrt(square/n - mean*mean)
	for i, v := range f.at {
		f.at[i] = clamp(float32(0.5+(float64(v)-mean)/(4*dev)), 0, 1)
	}
	return f
}

// bend moves a field by another one, sideways and, half as far, along.
func bend(f, by field, pixels float32) field {
	out := field{make([]float32, len(f.at))}
	for y := range fieldSize {
		for x := range fieldSize {
			across := int(pixels * (by.get(x, y) - 0.5))
			along := int(pixels / 2 * (by.get(x+331, y+113) - 0.5))
			out.at[y*fieldSize+x] = f.get(x+across, y+along)
		}
	}
	return out
}

// cells scatters one point in each of n × n squares and measures the distance
// to the nearest, and how much farther the second nearest is.
func cells(r *rand.Rand, n int) (middle, border field) {
	px, py := make([]float64, n*n), make([]float64, n*n)
	for i := range px {
		px[i], py[i] = r.Float64(), r.Float64()
	}
	middle = field{make([]float32, fieldSize*fieldSize)}
	border = field{make([]float32, fieldSize*fieldSize)}
	for y := range fieldSize {
		for x := range fieldSize {
			near, next := nearestTwo(px, py, n, float64(x)*float64(n)/fieldSize, float64(y)*float64(n)/fieldSize)
			middle.at[y*fieldSize+x] = clamp(float32(near), 0, 1)
			border.at[y*fieldSize+x] = clamp(float32(next-near), 0, 1)
		}
	}
	return middle, border
}

// nearestTwo looks in the square of the place and the eight around it.
func nearestTwo(px, py []float64, n int, x, y float64) (near, next float64) {
	near, next = 9, 9
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			cx, cy := int(x)+dx, int(y)+dy
			i := ((cy+n)%n)*n + (cx+n)%n
			d := (float64(cx)+px[i]-x)*(float64(cx)+px[i]-x) + (float64(cy)+py[i]-y)*(float64(cy)+py[i]-y)
			if d < near {
				near, next = d, near
			} else if d < next {
				next = d
			}
		}
	}
	return math.Sqrt(near), math.Sqrt(next)
}

// clamp spells its comparisons out: the built-in min and max mind NaN, which
// costs a fifth of the time of a picture.
func clamp(v, low, high float32) float32 {
	if v < low {
		return low
	}
	if v > high {
		return high
	}
	return v
}

// smooth rises from 0 at low to 1 at high without a corner.
func smooth(v, low, high float32) float32 {
	if v <= low {
		return 0
	}
	if v >= high {
		return 1
	}
	t := (v - low) / (high - low)
	return t * t * (3 - 2*t)
}
