package mark

import (
	"fmt"
	"image"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/target"
)

// perMM is the pixels a millimetre of the pictures of labels here: what a phone's
// photo of the mat has at its far side.
const perMM = 5.5

// labelPicture is a label's place with a QR code of modules of mm millimetres on it,
// turned, blurred by σ pixels, with noise; other words stand beside the code.
func labelPicture(r *rand.Rand, code *target.QR, mm, turn, sigma float64) Plane {
	w, h := int(100*perMM), int(52*perMM)
	g := image.NewGray(image.Rect(0, 0, w, h))
	sin, cos := math.Sincos(turn * math.Pi / 180)
	cx, cy := 50+20*(r.Float64()-0.5), 26+8*(r.Float64()-0.5)
	dark := func(x, y float64) bool {
		x, y = (x-cx)*cos+(y-cy)*sin, (y-cy)*cos-(x-cx)*sin
		if code == nil {
			return math.Abs(x) < 20 && math.Abs(y) < 4 && int(math.Floor(x))%2 == 0 // words
		}
		half := float64(code.Modules()) / 2
		return code.Dark(int(math.Floor(x/mm+half)), int(math.Floor(y/mm+half)))
	}
	const n = 3
	for i := range g.Pix {
		ink := 0
		for k := range n * n {
			if dark((float64(i%w)+(float64(k%n)+0.5)/n)/perMM, (float64(i/w)+(float64(k/n)+0.5)/n)/perMM) {
				ink++
			}
		}
		g.Pix[i] = uint8(215 - 170*ink/(n*n))
	}
	soft := make([]float32, w*h)
	for i, v := range g.Pix {
		soft[i] = float32(v)
	}
	for range 3 {
		smoothRows(soft, w, h, 1, w, int(math.Round(sigma)))
		smoothRows(soft, h, w, w, 1, int(math.Round(sigma)))
	}
	for i, v := range soft {
		g.Pix[i] = uint8(min(max(float64(v)+4*r.NormFloat64(), 0), 255))
	}
	return Gray(g)
}

// compared reads a picture by comparison alone.
func compared(p Plane, wall Printed) (tiles.Number, bool) {
	q := geometry.Box(0, 0, float64(p.W), float64(p.H))
	flat := p.flatten(q, float64(p.W)/perMM*finderScale, float64(p.H)/perMM*finderScale)
	return wall.read(finders(flat), func(m geometry.Point) float64 { return p.at(m.Times(perMM), coded) })
}

// encode makes a code as labels have it now, or, with more error correction, as
// they had it before.
func encode(t testing.TB, payload string, more bool) *target.QR {
	code, err := target.NewQR(payload)
	require.NoError(t, err)
	for modules := code.Modules(); more; modules += 4 {
		if code, err = target.QRLike(payload, target.QRFormat{Modules: modules, Level: target.LevelM, Mask: 3}); err == nil {
			break
		}
	}
	return &code
}

// A code of 2 pixels a module, softer than a module, which no reader reads, is
// told by comparing it; so is one from before, with more error correction.
func TestASoftCodeIsToldFromTheOthers(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	wall := Printed{Address: "https://wall.example", Last: 400}
	read, tried := 0, 0
	for range count(5, 300) {
		n := tiles.Number(1 + r.IntN(400))
		for _, more := range []bool{false, true} {
			for _, address := range []string{wall.Address, ""} {
				p := labelPicture(r, encode(t, n.Payload(address), more), 0.38+0.15*r.Float64(), 90*float64(r.IntN(4))+5*r.NormFloat64(), 1)
				tried++
				if got, ok := compared(p, wall); ok {
					require.Equal(t, n, got)
					read++
				}
			}
		}
	}
	t.Logf("%d of %d soft codes told", read, tried)
	require.GreaterOrEqual(t, float64(read), 0.98*float64(tried))
}

// What is no label of this wall is never taken for one: other codes, labels of
// another site (whose number is right or not said), numbers with more digits
// than any of this wall, no code at all.
func TestOtherCodesAreNotTaken(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	wall := Printed{Address: "https://wall.example", Last: 400}
	others := []func(n tiles.Number) string{
		func(n tiles.Number) string { return n.Payload("https://wall2.example") },
		func(n tiles.Number) string { return n.Payload("https://well.example") },
		func(n tiles.Number) string { return n.Payload("http://wall.example") },
		func(n tiles.Number) string { return n.Payload("https://wall.example/b") },
		func(n tiles.Number) string { return (1000 + n).Payload(wall.Address) },
		func(n tiles.Number) string { return (1000 + n).Payload("") },
		func(n tiles.Number) string { return fmt.Sprintf("https://shop.example/item?id=%d", n) },
		func(n tiles.Number) string { return fmt.Sprintf("https://wall.example/glaze/%d.html", n) },
		func(n tiles.Number) string { return fmt.Sprintf("BOX %d", n) },
		func(n tiles.Number) string { return fmt.Sprintf("WIFI:S:studio %d;;", n) },
		nil,
	}
	taken, right, tried := make([]int, len(others)), make([]int, len(others)), 0
	for range count(2, 150) {
		for k, other := range others {
			n := tiles.Number(1 + r.IntN(400))
			var code *target.QR
			if other != nil {
				code = encode(t, other(n), r.IntN(2) == 1)
			}
			p := labelPicture(r, code, 0.36+0.3*r.Float64(), 4*r.NormFloat64(), float64(r.IntN(2)))
			tried++
			got, ok := compared(p, wall)
			if ok && k < 4 && got == n {
				right[k]++
			} else if ok {
				taken[k]++
			}
		}
	}
	t.Logf("%d codes of others: taken for a wrong tile %v, with their own number %v", tried, taken, right)
	require.Zero(t, slices.Max(taken))
}
