package measure

import (
	"cmp"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/color/spectral"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// litBoard is a photo of a board of 64 tiles as figures: what the file holds of
// the paper about its marks, of its tags' and of its tiles, without the picture.
type litBoard struct {
	marks, tags []correct.Spot
	tiles       [][]correct.Spot // light of cells of each tile, and where
	truth       []color.Lab
	even        [][]correct.RGB // the same cells, had the light been even
}

// shootBoard takes one, with shadows across it; smooth says how the lamp falls off.
func shootBoard(t *testing.T, b *spectral.Bench, seed uint64, shadows []simulate.Shadow) litBoard {
	r := rand.New(rand.NewPCG(seed, 83))
	board, err := target.Board(wallOf("A", "B", "C", "D", "E", "F", "G", "H"))
	require.NoError(t, err)
	shot := b.Careful(b.Cameras[r.IntN(len(b.Cameras))], b.Lights.Of[b.Lights.Names[r.IntN(len(b.Lights.Names))]], r)
	lamp := fall(r, false)
	falls := func(x, y float64) float64 {
		v := lamp(x/board.Width, y/board.Height)
		for _, s := range shadows {
			v *= float64(s.Lets(x, y, board.Width, board.Height))
		}
		return v
	}
	take := func(s *spectral.Spectrum, x, y, noise float64) correct.Spot {
		return correct.Spot{X: x / board.Width, Y: y / board.Height,
			RGB: correct.RGB(shot.Dimmed(falls(x, y) * (1 + noise*r.NormFloat64())).Take(s))}
	}
	paper, other := wornPaper(r), wornPaper(r)
	out := litBoard{}
	for _, m := range board.Marks {
		for _, at := range [][2]float64{{m.X + m.W/2, m.Y - 3}, {m.X + m.W/2, m.Y + m.H + 3}, {m.X - 3, m.Y + m.H/2}, {m.X + m.W + 3, m.Y + m.H/2}} {
			out.marks = append(out.marks, take(paper, at[0], at[1], 0.003))
		}
	}
	for _, p := range board.Places {
		tag := take(other, p.Tag.X+p.Tag.W/2, p.Tag.Y+p.Tag.H/2, 0.012)
		tag.Sheet = 1
		out.tags = append(out.tags, tag)
		surface := b.Surfaces[r.IntN(len(b.Surfaces))]
		out.truth = append(out.truth, b.Truth(surface))
		var cells []correct.Spot
		var even []correct.RGB
		for i := range 4 {
			for j := range 6 {
				x, y := p.Face.X+p.Face.W*(0.1+0.8*float64(i)/3), p.Face.Y+p.Face.H*(0.1+0.8*float64(j)/5)
				cells = append(cells, take(surface, x, y, 0))
				even = append(even, correct.RGB(shot.Dimmed(0.7).Take(surface)))
			}
		}
		out.tiles, out.even = append(out.tiles, cells), append(out.even, even)
	}
	return out
}

// spread is how far each tile's light, leveled, lies from what it would be in even
// light, as a share, the middle of all taken off: root mean square.
func (l *litBoard) spread(light correct.Light) float64 {
	var off []float64
	for i, cells := range l.tiles {
		sum, want := 0.0, 0.0
		for j, c := range cells {
			sum += light.Level(c.X, c.Y, c.RGB)[1]
			want += l.even[i][j][1]
		}
		off = append(off, math.Log(sum/want))
	}
	slices.SortFunc(off, cmp.Compare[float64])
	middle, square := off[len(off)/2], 0.0
	for _, v := range off {
		square += (v - middle) * (v - middle) / float64(len(off))
	}
	return math.Sqrt(square)
}

// The paper of the tags tells the light on a board in shadow better than that of
// the marks alone, and costs nothing where the light is even.
func TestTheTagsTellTheLightOnABoard(t *testing.T) {
	b := spectral.ReadBench(t)
	n := 20
	if os.Getenv("TWODIP_LONG") == "1" {
		n = 400
	}
	for _, kind := range []string{"even", "one or two shadows"} {
		var alone, both, uneven []float64
		for i := range n {
			r := rand.New(rand.NewPCG(uint64(i), 84))
			var shadows []simulate.Shadow
			if kind != "even" {
				shadows = shadowsOf(r)
			}
			l := shootBoard(t, b, uint64(70_000+i), shadows)
			alone = append(alone, l.spread(correct.LightFrom(l.marks)))
			light := correct.LightFrom(slices.Concat(l.marks, l.tags))
			both = append(both, l.spread(light))
			uneven = append(uneven, light.Uneven())
		}
		for _, v := range [][]float64{alone, both, uneven} {
			slices.Sort(v)
		}
		t.Logf("%s: spread of light by the marks median %.4f p95 %.4f, by tags too %.4f, %.4f; uneven p5 %.4f p95 %.4f", kind,
			alone[n/2], alone[n*95/100], both[n/2], both[n*95/100], uneven[n/20], uneven[n*95/100])
		if kind == "even" {
			assert.LessOrEqual(t, both[n/2], 1.2*alone[n/2])
			assert.Less(t, uneven[n*95/100], unevenSaidOnBoard, "no edge is said")
		} else {
			assert.LessOrEqual(t, both[n/2], alone[n/2]/2)
			assert.LessOrEqual(t, both[n*95/100], alone[n*95/100]/2)
			assert.Greater(t, uneven[n/20], unevenSaidOnBoard, "an edge is said")
		}
	}
}
