package site

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"
)

// Screens are compared at a twelfth of their size, so that another version of
// a font moves nothing, but a part that is missing, moved or recolored does.
const (
	lookScale = 12
	// lookMean and lookMost bound the mean and the largest difference of a
	// pixel, of 255. Looked at and accepted: see testdata.
	lookMean = 5.0
	lookMost = 110.0
)

// TestScreensLookAsTheyWereAccepted compares with pictures that a person has
// looked at; TWODIP_UPDATE=1 replaces them, to be looked at again.
func TestScreensLookAsTheyWereAccepted(t *testing.T) {
	dir, _ := standingSite(t)
	for _, screen := range []struct {
		name, page    string
		width, height int64
	}{
		{"wall", "index.html", 1440, 900},
		{"found", "index.html#near=48+-8+-14", 1440, 900},
		{"tile", "tile/7.html", 1440, 900},
		{"order", "order.html", 1440, 900},
		{"phone", "tile/7.html", 390, 844},
		{"room", "room.html#tile=69&show=1", 1920, 1080},
	} {
		b := openTab(t, screen.width, screen.height)
		b.visit(fileURL(dir, screen.page))
		b.until(`document.readyState === 'complete' && [...document.images].every(i => i.complete || i.getBoundingClientRect().top > innerHeight)`)
		file := filepath.Join("testdata", "look", screen.name+".png")
		if os.Getenv("TWODIP_UPDATE") != "" {
			time.Sleep(2 * time.Second)
			var out bytes.Buffer
			require.NoError(t, png.Encode(&out, b.reduced()))
			require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
			require.NoError(t, os.WriteFile(file, out.Bytes(), 0o644))
			continue
		}
		f, err := os.Open(file)
		require.NoError(t, err)
		want, err := png.Decode(f)
		f.Close()
		require.NoError(t, err)
		mean, most := apart(b.reduced(), want)
		for range 10 { // a busy machine may not have painted all of it yet
			if mean <= lookMean && most <= lookMost {
				break
			}
			time.Sleep(500 * time.Millisecond)
			mean, most = apart(b.reduced(), want)
		}
		t.Logf("%s: mean %.2f, most %.0f", screen.name, mean, most)
		assert.LessOrEqual(t, mean, lookMean, screen.name)
		assert.LessOrEqual(t, most, lookMost, screen.name)
	}
}

// reduced is a screenshot at a twelfth of its size.
func (b *tab) reduced() *image.NRGBA {
	shot, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	require.NoError(b.t, err)
	img, err := png.Decode(bytes.NewReader(shot))
	require.NoError(b.t, err)
	return smaller(img)
}

// smaller is a picture at a twelfth of its size.
func smaller(img image.Image) *image.NRGBA {
	size := img.Bounds()
	small := image.NewNRGBA(image.Rect(0, 0, size.Dx()/lookScale, size.Dy()/lookScale))
	draw.BiLinear.Scale(small, small.Bounds(), img, size, draw.Src, nil)
	return small
}

// apart is the mean and the largest difference over all channels, of 255.
func apart(p, q image.Image) (mean, most float64) {
	if p.Bounds() != q.Bounds() {
		return 255, 255
	}
	b, n := p.Bounds(), 0.0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r1, g1, b1, _ := p.At(x, y).RGBA()
			r2, g2, b2, _ := q.At(x, y).RGBA()
			for _, d := range []float64{float64(r1) - float64(r2), float64(g1) - float64(g2), float64(b1) - float64(b2)} {
				d = math.Abs(d) / 257
				mean += d
				most = max(most, d)
				n++
			}
		}
	}
	return mean / n, most
}
