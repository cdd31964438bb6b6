package measure

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/geometry"
	"github.com/twodip/twodip/tiles/photo"
)

// glossyFolder is where photographs of glossy objects lie with masks of their
// surfaces, beside the checkout.
func glossyFolder(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	dir = filepath.Join(dir, "..", "shared", "photos", "glossy")
	if _, err := os.Stat(dir); err != nil {
		t.Skip("../shared/photos/glossy is not on this machine")
	}
	return dir
}

// segments are the surfaces of a mask picture: one a color, the largest, the
// ground's, left out.
func segments(t *testing.T, path string) map[string]*Mask {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	img, err := png.Decode(f)
	require.NoError(t, err)
	out := map[string]*Mask{}
	size := map[string]int{}
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	for y := range h {
		for x := range w {
			r, g, b, _ := img.At(x, y).RGBA()
			key := fmt.Sprint(r>>8, g>>8, b>>8)
			if out[key] == nil {
				out[key] = &Mask{In: make([]bool, w*h), Width: w, Scale: 1}
			}
			out[key].In[y*w+x] = true
			size[key]++
		}
	}
	largest := ""
	for key, n := range size {
		if n > size[largest] {
			largest = key
		}
	}
	delete(out, largest)
	for key := range out {
		if size[key] < 3000 {
			delete(out, key)
		}
	}
	return out
}

// Photographs of glossy objects, each surface of one color outlined by hand:
// SOURCE.txt beside them says that a mean without highlights has more chroma,
// less lightness and less spread than the plain one. Surfaces on which nothing
// is dropped are passed over.
func TestWithoutHighlightsASurfaceIsDarkerPurerAndMoreEven(t *testing.T) {
	dir := glossyFolder(t)
	files, err := filepath.Glob(dir + "/*.png")
	require.NoError(t, err)
	cleared, darker, purer := 0, 0.0, 0.0
	for _, mask := range files {
		p := glossyPhoto(t, strings.TrimSuffix(mask, ".png"))
		for key, shape := range segments(t, mask) {
			robust, plain := readSurface(p, shape)
			if robust.kept == plain.kept {
				continue
			}
			cleared++
			none := correct.None(p.Profile.ToXYZ)
			a, areaA := colors(none, &robust)
			b, areaB := colors(none, &plain)
			name := filepath.Base(mask) + " " + key
			assert.LessOrEqual(t, a.L, b.L+0.05, name)
			assert.GreaterOrEqual(t, a.Chroma(), b.Chroma()-0.4, name)
			assert.LessOrEqual(t, areaA.Spread(), areaB.Spread()+1.5, "%s: most are round, so shading is spread too", name)
			darker += b.L - a.L
			purer += a.Chroma() - b.Chroma()
		}
	}
	assert.Greater(t, cleared, 10, "surfaces with highlights")
	assert.Positive(t, darker)
	assert.Positive(t, purer)
}

func glossyPhoto(t *testing.T, base string) *photo.Photo {
	for _, ext := range []string{".JPG", ".tif"} {
		if data, err := os.ReadFile(base + ext); err == nil {
			p, err := photo.Open(data)
			require.NoError(t, err)
			return p
		}
	}
	t.Fatalf("no photo beside %s.png", base)
	return nil
}

// readSurface samples a surface with glare dropped, and with all of it kept.
func readSurface(p *photo.Photo, shape *Mask) (robust, plain sample) {
	shape.shrink(3)
	b := p.Image.Bounds()
	whole := geometry.Box(0, 0, float64(b.Dx()), float64(b.Dy()))
	f := Face{Quad: whole, Shape: shape}
	a := area{u1: 1, v1: 1}
	var m mosaic
	m.read(p, image.Rect(0, 0, b.Dx(), b.Dy()))
	robust = m.takeSample(&f, a, &p.Profile.ToXYZ, nil)
	clear(m.blown)
	robustIn := m.in
	plain = newSample(len(robustIn), whole)
	for _, in := range robustIn {
		plain.add(float64(in.u), float64(in.v), wide(m.light[in.block]), 1)
	}
	plain.total = len(robustIn)
	return robust, plain
}
