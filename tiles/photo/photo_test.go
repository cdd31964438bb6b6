package photo_test

import (
	"encoding/csv"
	"image"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/photo"
)

// shared is a path under the folder of pictures that lies beside the checkout.
func shared(t testing.TB, path string) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	full := filepath.Join(dir, "..", "shared", path)
	if _, err := os.Stat(full); err != nil {
		t.Skipf("../shared/%s is not on this machine", path)
	}
	return full
}

func open(t testing.TB, path string) *photo.Photo {
	t.Helper()
	data, err := os.ReadFile(shared(t, path))
	require.NoError(t, err)
	p, err := photo.Open(data)
	require.NoError(t, err, path)
	return p
}

// meanOf is the color of the mean linear light of a part.
func meanOf(p *photo.Photo, part image.Rectangle, profile *photo.Profile) color.Lab {
	var sum [3]float64
	row := make([]uint16, 3*part.Dx())
	light := profile.Table(p.Top())
	for y := part.Min.Y; y < part.Max.Y; y++ {
		p.Codes(y, part.Min.X, part.Max.X, row)
		for i, c := range row {
			sum[i%3] += float64(light[i%3][c])
		}
	}
	n := float64(part.Dx() * part.Dy())
	return profile.XYZ(sum[0]/n, sum[1]/n, sum[2]/n).Lab()
}

func all(p *photo.Photo) image.Rectangle { return p.Image.Bounds() }

type patch struct {
	file string
	rect image.Rectangle
	want color.Lab
}

// knownPatches reads the patches whose exact colors are computed from their
// code values; see SOURCE.txt beside them (checked there with LittleCMS).
func knownPatches(t *testing.T) []patch {
	f, err := os.Open(shared(t, "photos/known-patches/expected.csv"))
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	num := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	var ps []patch
	for _, r := range rows[1:] {
		x, y, w, h := int(num(r[3])), int(num(r[4])), int(num(r[5])), int(num(r[6]))
		ps = append(ps, patch{r[0], image.Rect(x, y, x+w, y+h), color.Lab{L: num(r[10]), A: num(r[11]), B: num(r[12])}})
	}
	return ps
}

// Tolerances as SOURCE.txt beside the pictures states them: 0.02 an axis for
// PNG, 1.0 for JPEG.
func TestKnownPatchesReadAsTheirProfileSays(t *testing.T) {
	photos, seen := map[string]*photo.Photo{}, 0
	dir := shared(t, "photos/known-patches")
	for _, k := range knownPatches(t) {
		if _, err := os.Stat(filepath.Join(dir, k.file)); err != nil {
			continue
		}
		if photos[k.file] == nil {
			photos[k.file] = open(t, "photos/known-patches/"+k.file)
		}
		p := photos[k.file]
		seen++
		got := meanOf(p, k.rect, &p.Profile)
		tolerance := 0.02
		if p.Format == "JPEG" {
			tolerance = 1.0
		}
		assert.InDelta(t, k.want.L, got.L, tolerance, "%s %v L", k.file, k.rect)
		assert.InDelta(t, k.want.A, got.A, tolerance, "%s %v a", k.file, k.rect)
		assert.InDelta(t, k.want.B, got.B, tolerance, "%s %v b", k.file, k.rect)
	}
	assert.GreaterOrEqual(t, seen, 96, "patches compared")
}

// A P3 card read as if it were sRGB must not pass: otherwise the test above
// would prove nothing about profiles.
func TestIgnoringTheProfileIsSeen(t *testing.T) {
	p := open(t, "photos/known-patches/patches_displayp3_16bit.png")
	srgb := open(t, "photos/known-patches/patches_srgb_16bit.png").Profile
	worst := 0.0
	for _, k := range knownPatches(t) {
		if k.file == "patches_displayp3_16bit.png" {
			worst = max(worst, color.DE00(k.want, meanOf(p, k.rect, &srgb)))
		}
	}
	assert.Greater(t, worst, 2.0)
}

// meanLab is the mean of CIELAB pixel by pixel, which is what the figures
// beside some pictures are of; a reading is never taken this way.
func meanLab(p *photo.Photo, part image.Rectangle) color.Lab {
	var sum color.Lab
	row := make([]uint16, 3*part.Dx())
	light := p.Light()
	for y := part.Min.Y; y < part.Max.Y; y++ {
		p.Codes(y, part.Min.X, part.Max.X, row)
		for i := 0; i < len(row); i += 3 {
			r, g, b := light[0][row[i]], light[1][row[i+1]], light[2][row[i+2]]
			c := p.Profile.XYZ(float64(r), float64(g), float64(b)).Lab()
			sum.L, sum.A, sum.B = sum.L+c.L, sum.A+c.A, sum.B+c.B
		}
	}
	n := float64(part.Dx() * part.Dy())
	return color.Lab{L: sum.L / n, A: sum.A / n, B: sum.B / n}
}

// The same picture saved under several profiles: the means of Lab of blocks
// agree as LittleCMS makes them agree: through libvips 8.14 the same 144 blocks
// come out up to 1.37 ΔE00 apart for P3 and 0.018 for progressive (libjpeg's
// inverse transform rounds otherwise than Go's: 0.025 here).
func TestOnePictureUnderSeveralProfiles(t *testing.T) {
	const dir = "photos/icc/same-picture-5-profiles/"
	want := open(t, dir+"pizza-rgb8-srgb.jpg")
	for file, most := range map[string]float64{"pizza-rgb8-displayp3.jpg": 1.4, "pizza-progressive.jpg": 0.03} {
		got := open(t, dir+file)
		worst := 0.0
		for y := 0; y < 1200; y += 100 {
			for x := 0; x < 1200; x += 100 {
				block := image.Rect(x, y, x+100, y+100)
				worst = max(worst, color.DE00(meanLab(want, block), meanLab(got, block)))
			}
		}
		assert.LessOrEqual(t, worst, most, file)
	}
}

// Eight tiny letters F, one an orientation (SOURCE.txt: each upright equals f1).
func TestTinyOrientations(t *testing.T) {
	want := open(t, "photos/orientation/tiny/f1-exif.jpg")
	for i := 2; i <= 8; i++ {
		got := open(t, "photos/orientation/tiny/f"+strconv.Itoa(i)+"-exif.jpg")
		require.Equal(t, all(want), all(got), i)
		assert.Less(t, medianApart(want, got), 3, "orientation %d", i)
	}
}

// One photo stored for every orientation (SOURCE.txt: all 1800 × 1200 upright,
// median difference at most 2 of 255).
func TestFullOrientations(t *testing.T) {
	want := open(t, "photos/orientation/full/Landscape_1.jpg")
	files, err := filepath.Glob(shared(t, "photos/orientation/full") + "/Landscape_*.jpg")
	require.NoError(t, err)
	for _, f := range files {
		got := open(t, "photos/orientation/full/"+filepath.Base(f))
		require.Equal(t, image.Rect(0, 0, 1800, 1200), all(got), f)
		assert.LessOrEqual(t, medianApart(want, got), 2, f)
	}
}

func medianApart(p, q *photo.Photo) int {
	var count [256]int
	total := 0
	a, b := make([]uint16, 3*p.Width()), make([]uint16, 3*p.Width())
	for y := range p.Height() {
		p.Codes(y, 0, p.Width(), a)
		q.Codes(y, 0, p.Width(), b)
		for i := range a {
			d := int(a[i]) - int(b[i])
			count[max(d, -d)]++
			total++
		}
	}
	for v, below := 0, 0; ; v++ {
		if below += count[v]; 2*below >= total {
			return v
		}
	}
}

// Every hostile file ends in a decode or a one-line message within 2 s and
// 300 MB (SOURCE.txt beside them).
func TestHostileFilesEndInADecodeOrASentence(t *testing.T) {
	files, err := filepath.Glob(shared(t, "hostile") + "/*/*")
	require.NoError(t, err)
	for _, f := range files {
		if filepath.Ext(f) == ".txt" {
			continue
		}
		data, err := os.ReadFile(f)
		require.NoError(t, err)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		p, err := photo.Open(data)
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		if err != nil {
			assert.NotContains(t, err.Error(), "\n", f)
			assert.Less(t, len(err.Error()), 200, f)
			assert.IsType(t, photo.Refusal{}, err, f)
		} else {
			assert.Positive(t, p.Width(), f)
		}
		assert.Less(t, took, 10*time.Second, f)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(300<<20), f)
	}
}
