package mark

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// sticker is a label as it is printed: its size and the side of its QR code's
// square with the quiet zone, mm.
type sticker struct {
	name       string
	w, h, code float64
	address    string
}

// The usual label, the smallest with an address and the smallest without. The
// printed ones are read in cmd/twodip.
var stickers = []sticker{
	{"30 on Letter", 66.675, 25.4, labelQR, "https://wall.example"},
	{"80 on Letter", 44.45, 12.7, 12.7, "https://wall.example"},
	{"80 on Letter, number alone", 44.45, 12.7, 12.7, ""},
}

// laid is a label that lies somewhere in its place on the mat.
func (s sticker) laid(t testing.TB, r *rand.Rand, page target.Page, n tiles.Number) (b simulate.Block, module float64) {
	code, err := target.NewQR(n.Payload(s.address))
	require.NoError(t, err)
	return simulate.Block{X: page.Label.X + (page.Label.W-s.w)/2 + 3*r.NormFloat64(), Y: page.Label.Y + (page.Label.H-s.h)/2 + 2*r.NormFloat64(),
		W: s.w, H: s.h, Thick: 0.1, Turn: 5 * r.NormFloat64(), Fine: true,
		Face: simulate.Label(s.w, s.h, s.code, code.Modules(), code.Dark)}, s.code / float64(code.Modules()+2*target.QRQuiet)
}

// closeUp is what a 12-megapixel photo of the mat shows of a label, and the view
// that finding the marks gives. The rest of the photo is left out, which takes
// a tenth of the time: see TestPageMarks for the whole of it.
type closeUp struct {
	plane  Plane
	mat    Mat
	tile   tiles.Number
	module float64 // pixels, in the narrower direction
}

func closeShot(t testing.TB, s sticker, seed uint64, hard bool) closeUp {
	r := rand.New(rand.NewPCG(seed, 7))
	page, err := target.Mat(matSettings)
	require.NoError(t, err)
	out := closeUp{mat: Mat{page: page, Lying: Lying{label: page.Label}}, tile: tiles.Number(1 + r.IntN(int(printedLabels.Last)))}
	scene := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0.03*r.Float64())
	block, module := s.laid(t, r, page, out.tile)
	scene.Blocks = []simulate.Block{block}
	tilt := 35.0
	if hard {
		tilt = 45
	}
	c := simulate.Random(r, 4000, 3000, page.Width, page.Height, tilt, 0.02)
	l := light(r, hard)
	l.Glare = nil // its places are shares of the whole photo
	v := viewOf(t, r, c, page)
	part, x, y := about(c, page.Label.Grow(labelSlop))
	v.axis = v.axis.Minus(geometry.Point{X: x, Y: y})
	out.mat.View, out.module = v, module*v.narrow(block.X+block.W/2, block.Y+block.H/2)
	out.plane = gray(t, kept(fmt.Sprintf("label-%s-%v-%d.jpg", s.name, hard, seed), func() []byte {
		return simulate.JPEG(simulate.Photo(scene, part, l, r, true), l.Quality)
	}))
	return out
}

// viewOf is the view from the mat's marks, each corner seen 0.3 pixels off.
func viewOf(t testing.TB, r *rand.Rand, c simulate.Camera, page target.Page) View {
	var found []Found
	for _, m := range page.Marks {
		f := Found{ID: m.ID}
		for i, k := range m.Corners() {
			x, y, _ := c.See(k[0], k[1], 0)
			f.Quad[i] = geometry.Point{X: x + 0.3*r.NormFloat64(), Y: y + 0.3*r.NormFloat64()}
		}
		found = append(found, f)
	}
	v, _, err := solve(found, page.Marks[:], c.W, c.H, Lens35(0).lens(c.W, c.H))
	require.NoError(t, err)
	return v
}

// about is the part of a camera's picture about an area of the page, and where
// it begins.
func about(c simulate.Camera, area target.Rect) (part simulate.Camera, x, y float64) {
	x, y, right, down := math.Inf(1), math.Inf(1), 0.0, 0.0
	for _, k := range area.Corners() {
		px, py, _ := c.See(k[0], k[1], 0)
		x, y, right, down = min(x, px), min(y, py), max(right, px), max(down, py)
	}
	x, y = math.Floor(max(x-20, 0)), math.Floor(max(y-20, 0))
	part = c
	part.W, part.H = int(min(right+20, float64(c.W))-x), int(min(down+20, float64(c.H))-y)
	part.Off[0] += float64(c.W-part.W)/2 - x
	part.Off[1] += float64(c.H-part.H)/2 - y
	return part, x, y
}

// narrow is the pixels of a millimetre at a place, in the direction that has
// the fewest.
func (v *View) narrow(x, y float64) float64 {
	o := v.See(x, y, 0)
	a, b := v.See(x+1, y, 0).Minus(o), v.See(x, y+1, 0).Minus(o)
	mean, part := (a.Dot(a)+b.Dot(b))/2, math.Hypot((a.Dot(a)-b.Dot(b))/2, a.Dot(b))
	return math.Sqrt(mean - part)
}

// The target of the mat: the label's QR code is read on 99 % of standard pages,
// whatever the label, and no number is ever read for another.
func TestLabelsOnTheMat(t *testing.T) {
	if testing.Short() {
		t.Skip("simulated photos take some seconds")
	}
	for _, s := range stickers {
		for _, hard := range []bool{false, true} {
			read, n := 0, count(5, 400)
			if hard {
				n = count(1, 150)
			}
			var modules, millis []float64
			for seed := range uint64(n) {
				c := closeShot(t, s, 900_000+seed, hard)
				start := time.Now()
				got, ok := c.mat.Label(c.plane, &c.mat.Lying, Printed{Address: s.address, Last: printedLabels.Last})
				millis = append(millis, float64(time.Since(start).Microseconds())/1000)
				modules = append(modules, c.module)
				if ok {
					read++
					require.Equal(t, c.tile, got.Tile, "seed %d", seed)
				} else {
					t.Logf("%s, hard %v, seed %d: not read, %.2f pixels a module", s.name, hard, seed, c.module)
				}
			}
			slices.Sort(modules)
			slices.Sort(millis)
			t.Logf("%s, hard %v: read on %d of %d, pixels a module least %.1f p5 %.1f median %.1f, ms median %.0f p95 %.0f", s.name, hard, read, n,
				modules[0], at(modules, 0.05), at(modules, 0.5), at(millis, 0.5), at(millis, 0.95))
			if !hard {
				require.GreaterOrEqual(t, float64(read), 0.99*float64(n), s.name)
			}
		}
	}
}
