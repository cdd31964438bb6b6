package mark

import (
	"image"
	"io/fs"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/mark/simulate"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/target"
)

// shared is the folder of inputs that lies beside the checkout.
func shared(t testing.TB, name string) string {
	dir, err := os.Getwd()
	require.NoError(t, err)
	for ; filepath.Dir(dir) != dir; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
	}
	path := filepath.Join(dir, "..", "shared", name)
	if _, err := os.Stat(path); err != nil {
		t.Skipf("the folder shared/%s is not beside the checkout", name)
	}
	return path
}

// Photos of ceramics, charts, scenes and test pictures hold no mark of ours.
func TestNoFalseMarksInPhotos(t *testing.T) {
	seen := 0
	err := filepath.WalkDir(shared(t, "photos"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if testing.Short() && seen >= 12 {
			return filepath.SkipAll
		}
		if slow := filepath.Ext(path); !long && (slow == ".heic" || slow == ".tif") {
			return nil
		}
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		if p, err := photo.Open(data); err == nil {
			seen++
			found, mirrored := Find(Gray(p.Luma()))
			require.Empty(t, found, "%s", path)
			require.False(t, mirrored, "%s", path)
		}
		return nil
	})
	require.NoError(t, err)
	require.Positive(t, seen)
	t.Logf("no mark in %d photos", seen)
}

// Nor do pictures made to tempt: noise of every scale, checks, dark squares
// with random cells in them, tags of tiles.
func TestNoFalseMarksInTextures(t *testing.T) {
	n := count(12, 1000)
	for seed := range uint64(n) {
		r := rand.New(rand.NewPCG(seed, 3))
		found, mirrored := Find(texture(r, 1600, 1200))
		require.Empty(t, found, "seed %d", seed)
		require.False(t, mirrored, "seed %d", seed)
	}
	t.Logf("no mark in %d textures", n)
}

func texture(r *rand.Rand, w, h int) Plane {
	g := image.NewGray(image.Rect(0, 0, w, h))
	size, size2 := 2+60*r.Float64(), 2+10*r.Float64()
	one := simulate.Mottled(simulate.RGB{0.5, 0.5, 0.5}, size, 0.9*r.Float64(), r.Uint64())
	two := simulate.Mottled(simulate.RGB{1, 1, 1}, size2, r.Float64(), r.Uint64())
	check := 0.0
	if r.IntN(3) == 0 {
		check = 8 + 60*r.Float64()
	}
	for y := range h {
		for x := range w {
			v := float64(one(float64(x), float64(y))[0] * two(float64(x), float64(y))[0])
			if check > 0 && (int(float64(x)/check)+int(float64(y)/check))%2 == 0 {
				v *= 0.2
			}
			g.Pix[y*g.Stride+x] = uint8(255 * math.Sqrt(min(v, 1)))
		}
	}
	for range 40 {
		stamp(g, r)
	}
	return Gray(g)
}

// stamp draws a dark square in a white one, turned, with cells that are random
// or a tile's tag.
func stamp(g *image.Gray, r *rand.Rand) {
	bits := target.Bits(r.Uint64() >> 28)
	if r.IntN(2) == 0 {
		bits = target.Tag(tiles.Number(1 + r.IntN(20000)))
	}
	cell := 3 + 12*r.Float64()
	sin, cos := math.Sincos(2 * math.Pi * r.Float64())
	cx, cy := r.Float64()*float64(g.Rect.Dx()), r.Float64()*float64(g.Rect.Dy())
	reach := int(cell * 8)
	for y := max(int(cy)-reach, 0); y < min(int(cy)+reach, g.Rect.Dy()); y++ {
		for x := max(int(cx)-reach, 0); x < min(int(cx)+reach, g.Rect.Dx()); x++ {
			dx, dy := float64(x)-cx, float64(y)-cy
			u, v := (dx*cos+dy*sin)/cell+4, (dy*cos-dx*sin)/cell+4
			switch {
			case u < -1 || v < -1 || u >= 9 || v >= 9:
			case u >= 0 && v >= 0 && u < 8 && v < 8 && bits.Black(int(u), int(v)):
				g.Pix[y*g.Stride+x] = 20
			default:
				g.Pix[y*g.Stride+x] = 230
			}
		}
	}
}
