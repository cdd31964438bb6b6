package mark

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/target"
)

// long says that the full counts were asked for.
var long = os.Getenv("TWODIP_LONG") == "1"

func count(short, full int) int {
	if long {
		return full
	}
	return short
}

// shot is one simulated photo and the camera that knows the truth.
type shot struct {
	data   []byte
	plane  Plane
	camera simulate.Camera
	tile   simulate.Block // as it lies on the mat
}

// gray takes the luma plane of a JPEG.
func gray(t testing.TB, data []byte) Plane {
	img, err := jpeg.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	switch m := img.(type) {
	case *image.Gray:
		return Gray(m)
	case *image.YCbCr:
		return Plane{W: m.Rect.Dx(), H: m.Rect.Dy(), Stride: m.YStride, Pix: m.Y}
	}
	t.Fatalf("unexpected %T", img)
	return Plane{}
}

func light(r *rand.Rand, hard bool) simulate.Light {
	l := simulate.Light{Across: 1 + r.Float64(), Way: 360 * r.Float64(),
		Sun:  [2]float64{1.5 * (2*r.Float64() - 1), 1.5 * (2*r.Float64() - 1)},
		Cast: simulate.RGB{float32(0.9 + 0.2*r.Float64()), 1, float32(0.9 + 0.2*r.Float64())},
		Blur: 0.6 + 1.4*r.Float64(), Noise: 0.01 + 0.02*r.Float64(), Flare: 0.01,
		Quality: 80 + r.IntN(16), Curve: 0.5 * r.Float64(), Level: float32(0.5 + 0.35*r.Float64())}
	if hard {
		l.Blur = 1.5 + 1.5*r.Float64()
		l.Motion = r.IntN(8)
		for range 2 {
			l.Glare = append(l.Glare, simulate.Glare{X: r.Float64(), Y: r.Float64(), Radius: 0.03 + 0.05*r.Float64(), Strength: 0.3 + 0.7*r.Float64()})
		}
	}
	return l
}

var matSettings = tiles.Settings{Paper: "a4", Tile: tiles.Shape{Width: 50, Height: 90, Thickness: 8}}

// kept makes a photo, or takes it from the folder TWODIP_KEEP, where it is
// given: for looking at photos, and for trying again without the wait.
func kept(name string, make func() []byte) []byte {
	dir := os.Getenv("TWODIP_KEEP")
	if dir == "" {
		return make()
	}
	name = filepath.Join(dir, name)
	if data, err := os.ReadFile(name); err == nil {
		return data
	}
	data := make()
	if err := os.WriteFile(name, data, 0o644); err != nil {
		panic(err)
	}
	return data
}

func pageShot(t testing.TB, seed uint64, hard bool, w, h int) (shot, target.Page) {
	r := rand.New(rand.NewPCG(seed, 1))
	page, err := target.Mat(matSettings)
	require.NoError(t, err)
	scene := simulate.Printed(page.Width, page.Height, simulate.White, page.Marks[:], 0.03*r.Float64())
	scene.Beyond = simulate.RGB{float32(0.05 + 0.5*r.Float64()), 0.25, 0.2}
	scene.Blocks = []simulate.Block{
		{X: page.Tile.X + 2*r.NormFloat64(), Y: page.Tile.Y + 2*r.NormFloat64(), W: page.Tile.W, H: page.Tile.H, Thick: 8, Turn: 2 * r.NormFloat64(),
			Face: simulate.Mottled(simulate.RGB{float32(0.02 + 0.6*r.Float64()), float32(0.02 + 0.6*r.Float64()), float32(0.02 + 0.6*r.Float64())}, 3, 0.4, seed)},
		{X: page.Reference.X + 5, Y: page.Reference.Y + 5, W: 60, H: 80, Thick: 1, Face: func(x, y float64) simulate.RGB { return simulate.Grey }},
	}
	scene.Blocks = append(scene.Blocks, label(t, r, page, tiles.Number(seed+1)))
	tilt := 35.0
	if hard {
		tilt = 45
	}
	c := simulate.Random(r, w, h, page.Width, page.Height, tilt, 0.02)
	l := light(r, hard)
	data := kept(fmt.Sprintf("page-%v-%d.jpg", hard, seed), func() []byte {
		return simulate.JPEG(simulate.Photo(scene, c, l, r, true), l.Quality)
	})
	return shot{data: data, plane: gray(t, data), camera: c, tile: scene.Blocks[0]}, page
}

// label lays a label of 66 × 25 mm with a QR code of an address somewhere in
// its place.
func label(t testing.TB, r *rand.Rand, page target.Page, n tiles.Number) simulate.Block {
	code, err := target.NewQR(n.Payload(printedLabels.Address))
	require.NoError(t, err)
	return simulate.Block{X: page.Label.X + 9 + 2*r.NormFloat64(), Y: page.Label.Y + 5 + 2*r.NormFloat64(),
		W: 66, H: 25, Thick: 0.1, Turn: 5 * r.NormFloat64(), Fine: true,
		Face: simulate.Label(66, 25, labelQR, code.Modules(), code.Dark)}
}

// printedLabels is the wall of the simulated labels.
var printedLabels = Printed{Address: "https://wall.example", Last: 400}

// labelQR is the side of the QR code with its quiet zone on the simulated
// label, mm: as on the printed label of this size.
const labelQR = 19.0

// tally collects what a run of photos gave.
type tally struct {
	photos, whole, marks, all int
	errors, millis, tile      []float64
}

func (a *tally) String() string {
	slices.Sort(a.errors)
	slices.Sort(a.millis)
	slices.Sort(a.tile)
	return fmt.Sprintf("%d photos: all marks on %d, marks %d of %d, corner error median %.2f p95 %.2f max %.2f px, ms median %.1f p95 %.1f, tile corner median %.2f p95 %.2f %%",
		a.photos, a.whole, a.marks, a.all, at(a.errors, 0.5), at(a.errors, 0.95), at(a.errors, 1), at(a.millis, 0.5), at(a.millis, 0.95), at(a.tile, 0.5), at(a.tile, 0.95))
}

func at(v []float64, share float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	return v[min(int(share*float64(len(v))), len(v)-1)]
}

func (a *tally) add(s shot, marks []target.Mark, found []Found) {
	a.photos++
	a.all += len(marks)
	n := 0
	for _, m := range marks {
		i := slices.IndexFunc(found, func(f Found) bool { return f.ID == m.ID })
		if i < 0 {
			continue
		}
		n++
		for k, c := range m.Corners() {
			x, y, _ := s.camera.See(c[0], c[1], 0)
			a.errors = append(a.errors, found[i].Quad[k].Distance(geometry.Point{X: x, Y: y}))
		}
	}
	a.marks += n
	if n == len(marks) {
		a.whole++
	}
}

func TestPageMarks(t *testing.T) {
	if testing.Short() {
		t.Skip("simulated photos take some seconds")
	}
	for _, hard := range []bool{false, true} {
		var sum, fitted tally
		labels := 0
		for seed := range uint64(count(2, 300)) {
			s, page := pageShot(t, seed, hard, 4000, 3000)
			start := time.Now()
			found, _ := Find(s.plane)
			sum.millis = append(sum.millis, float64(time.Since(start).Microseconds())/1000)
			sum.add(s, page.Marks[:], found)
			m, err := OnMat(s.plane, found, page, 8, 0)
			if err != nil {
				t.Logf("seed %d: %v", seed, err)
				continue
			}
			fitted.addMat(s, page, m)
			if len(m.Marks) == 4 {
				fitted.whole++
			}
			if l, ok := m.Label(s.plane, &m.Lying, printedLabels); ok {
				labels++
				require.Equal(t, tiles.Number(seed+1), l.Tile)
				require.False(t, l.Mirrored)
			}
		}
		t.Logf("hard %v: %v", hard, &sum)
		t.Logf("fitted %v: labels read %d, %v", hard, labels, &fitted)
		// The targets of the page: four marks on 99 % (hard 95 %), corners within
		// 0.4 px in the median and 0.8 at 95 % (hard: half as well).
		// The label's code is to be read on 99 % of standard pages; of hard ones, where
		// it may lie in glare, on 95 % (40 of 40 and 442 of 450 were read).
		least, worse := 0.99, 1.0
		if hard {
			least, worse = 0.95, 2.0
		}
		require.GreaterOrEqual(t, float64(labels), least*float64(sum.photos))
		require.GreaterOrEqual(t, float64(fitted.whole), least*float64(sum.photos))
		require.LessOrEqual(t, at(fitted.errors, 0.5), 0.4*worse)
		require.LessOrEqual(t, at(fitted.errors, 0.95), 0.8*worse)
	}
}

// addMat adds the marks' corners as the fitted camera puts them, and the tile's.
func (a *tally) addMat(s shot, page target.Page, m Mat) {
	a.photos++
	for _, mk := range page.Marks {
		for _, c := range mk.Corners() {
			x, y, _ := s.camera.See(c[0], c[1], 0)
			a.errors = append(a.errors, m.View.See(c[0], c[1], 0).Distance(geometry.Point{X: x, Y: y}))
		}
	}
	for k, c := range s.tile.Corners() {
		x, y, _ := s.camera.See(c[0], c[1], 8)
		a.tile = append(a.tile, m.Tile[k].Distance(geometry.Point{X: x, Y: y})/m.View.Scale(c[0], c[1])/page.Tile.W*100)
	}
	a.millis = append(a.millis, m.View.Residual)
}
