package mottle

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
)

var (
	blue  = color.Lab{L: 45, A: -6, B: -28}
	brown = color.Lab{L: 32, A: 14, B: 18}
)

const side = 80

// texture is an invented smooth random field of mean 0 and deviation 1, with
// patches of some size in cells: noise, blurred by a box three times.
func texture(random *rand.Rand, size int) []float64 {
	field := make([]float64, side*side)
	for i := range field {
		field[i] = random.NormFloat64()
	}
	for range 3 {
		field = boxed(field, size)
	}
	// The blur leaves a known share of the deviation. It is brought back from
	// what the blur does to one cell, not from this draw, whose mean may stray.
	weights := boxed(boxed(boxed(impulse(), size), size), size)
	sum := 0.0
	for _, w := range weights {
		sum += w * w
	}
	for i := range field {
		field[i] /= math.Sqrt(sum)
	}
	return field
}

func impulse() []float64 {
	out := make([]float64, side*side)
	out[side*side/2+side/2] = 1
	return out
}

// boxed blurs a field by a square box, wrapped at the edges.
func boxed(field []float64, size int) []float64 {
	out := make([]float64, len(field))
	for y := range side {
		for x := range side {
			for dy := range size {
				for dx := range size {
					out[y*side+x] += field[(y+dy)%side*side+(x+dx)%side]
				}
			}
		}
	}
	for i := range out {
		out[i] /= float64(size * size)
	}
	return out
}

// breaking is an area of two colors: brown wherever the field is above a level.
// soft is how many deviations wide the border between them is.
func breaking(field []float64, level, soft float64) Area {
	a := Area{Width: side, Cells: make([]color.XYZ, len(field))}
	p, q := blue.XYZ(), brown.XYZ()
	for i, v := range field {
		t := math.Min(math.Max((v-level)/soft+0.5, 0), 1)
		a.Cells[i] = color.XYZ{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y), Z: p.Z + t*(q.Z-p.Z)}
	}
	return a
}

func TestOneColorHasNoSpreadNoPartsNoDoubt(t *testing.T) {
	a := breaking(make([]float64, side*side), 5, 1)
	assert.InDelta(t, 0, color.DE00(blue, a.Mean()), 1e-9)
	assert.InDelta(t, 0, a.Spread(), 1e-9)
	assert.Empty(t, a.Parts())
	assert.InDelta(t, 0, a.Doubt(), 1e-9)
}

func TestAnAreaOfNothing(t *testing.T) {
	for _, a := range []Area{{}, {Width: 3}, {Width: 2, Cells: []color.XYZ{Out, Out}}} {
		assert.Zero(t, a.Spread())
		assert.Empty(t, a.Parts())
		assert.Zero(t, a.Doubt())
	}
}

func TestCellsLeftOutCountForNothing(t *testing.T) {
	a := breaking(texture(rand.New(rand.NewPCG(1, 1)), 5), 0.5, 0.2)
	want, spread := a.Mean(), a.Spread()
	for range side { // a glare of a whole row
		a.Cells = append(a.Cells, Out)
	}
	assert.Equal(t, want, a.Mean())
	assert.Equal(t, spread, a.Spread())
}

func TestPartsOfABreakingGlaze(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 3))
	for _, size := range []int{3, 6, 10} {
		a := breaking(texture(random, size), 0.52, 0.3) // brown on some 30 %
		brownish := 0.0
		for _, c := range a.Cells {
			if color.DE00(c.Lab(), brown) < color.DE00(c.Lab(), blue) {
				brownish++
			}
		}
		parts := a.Parts()
		require.Len(t, parts, 2)
		assert.Less(t, color.DE00(blue, parts[0].Lab), 1.5, "patches of %d cells", size)
		assert.Less(t, color.DE00(brown, parts[1].Lab), 1.5, "patches of %d cells", size)
		assert.InDelta(t, 1, parts[0].Share+parts[1].Share, 1e-12)
		assert.InDelta(t, brownish/side/side, parts[1].Share, 0.03)
		assert.Equal(t, parts, a.Parts(), "the same each time")
	}
}

func TestPartsLeavesSpecksAndShadesAlone(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 4))
	assert.Empty(t, breaking(texture(random, 4), 2.4, 0.1).Parts(), "specks on 1 %")
	satin := breaking(texture(random, 4), 0, 60)
	assert.Empty(t, satin.Parts(), "one color that wavers by %.1f", satin.Spread())
}

// The color of an area is the same when the picture is made smaller; the
// spread is not, which is why it is said to be of its cells.
func TestMeanDoesNotMoveWhenCellsAreJoined(t *testing.T) {
	a := breaking(texture(rand.New(rand.NewPCG(5, 5)), 3), 0.5, 0.2)
	half := Area{Width: side / 2}
	for y := 0; y < side; y += 2 {
		for x := 0; x < side; x += 2 {
			i := y*side + x
			half.Cells = append(half.Cells, color.Mean([]color.XYZ{a.Cells[i], a.Cells[i+1], a.Cells[i+side], a.Cells[i+side+1]}))
		}
	}
	assert.InDelta(t, 0, color.DE00(a.Mean(), half.Mean()), 1e-9)
	assert.Less(t, half.Spread(), a.Spread())
}
