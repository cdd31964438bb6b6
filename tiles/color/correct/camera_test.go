package correct

import (
	"math"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/color"
)

// camera is the measured sensitivities of a camera and the two matrices its
// maker would have put in: raw, white-balanced light to linear sRGB, fitted on
// the training spectra under lamplight (A) and daylight (D65). For other lights
// it mixes the two by how warm its white balance is, as the DNG format has it.
type camera struct {
	name       string
	r, g, b    *spectrum
	warm, cool calibration
}

// calibration is a matrix and the warmth of the light it was made under.
type calibration struct {
	warmth float64
	matrix color.Matrix
}

// warmth is how much more red than blue a camera counts for white.
func warmth(balance RGB) float64 { return math.Log(balance[0] / balance[2]) }

// matrix is what the camera uses under the white it found.
func (c *camera) matrix(balance RGB) (m color.Matrix) {
	share := (warmth(balance) - c.cool.warmth) / (c.warm.warmth - c.cool.warmth)
	share = math.Min(math.Max(share, 0), 1)
	for i := range m {
		for k := range m[i] {
			m[i][k] = c.cool.matrix[i][k] + share*(c.warm.matrix[i][k]-c.cool.matrix[i][k])
		}
	}
	return m
}

// raw is what the sensor counts, before white balance.
func (c *camera) raw(light, surface *spectrum) (out RGB) {
	for i := range bands {
		w := light[i] * surface[i]
		out[0] += w * c.r[i]
		out[1] += w * c.g[i]
		out[2] += w * c.b[i]
	}
	return out
}

// white is a perfect diffuser.
var white = func() *spectrum {
	var s spectrum
	for i := range s {
		s[i] = 1
	}
	return &s
}()

// bench is everything a simulated photo is taken with.
type bench struct {
	observer observer
	lights   spectra
	cameras  []*camera
	charts   []spectra // two measurements of the 24-patch chart
	surfaces []*spectrum
}

func readBench(t testing.TB) *bench {
	b := &bench{observer: readObserver(t), lights: down(t, published(t, "cie/illuminants_A_B_C_D_E_5nm.csv"))}
	for _, path := range []string{"cie/illuminants_FL1-12_5nm.csv", "cie/illuminants_FL3.1-3.15_5nm.csv"} {
		more := down(t, published(t, path))
		b.lights.names = append(b.lights.names, more.names...)
		for name, s := range more.of {
			b.lights.of[name] = s
		}
	}
	for _, path := range []string{"colorchecker/colorchecker_spectra_babelcolor_avg.csv", "colorchecker/colorchecker_spectra_ohta.csv"} {
		b.charts = append(b.charts, down(t, published(t, path)))
	}
	b.readSurfaces(t)
	b.readCameras(t)
	return b
}

// truth is a surface's color as the wall means it: under D50, 2°.
func (b *bench) truth(surface *spectrum) color.Lab {
	return b.observer.see(b.lights.of["D50"], surface)
}

// readSurfaces takes glossy and matt chips that could be glazes: chroma up to
// 60, as the strongest reds and yellows fired in stoneware have.
func (b *bench) readSurfaces(t testing.TB) {
	d50 := b.lights.of["D50"]
	for _, path := range []string{"munsell_gloss_380-780_5nm.csv", "munsell_matt_380-780_5nm.csv"} {
		chips := across(t, published(t, "reflectances/munsell-gloss-matt/"+path))
		for _, name := range chips.names {
			if s := chips.of[name]; b.observer.see(d50, s).Chroma() <= 60 {
				b.surfaces = append(b.surfaces, s)
			}
		}
	}
	require.Greater(t, len(b.surfaces), 2000)
}

func (b *bench) readCameras(t testing.TB) {
	training := nested(t, published(t, "reflectances/rawtoaces-190/training_spectral.json"))
	paths, err := filepath.Glob(filepath.Join(published(t, "cameras/rawtoaces"), "*.json"))
	require.NoError(t, err)
	for _, path := range paths {
		s := nested(t, path)
		name, _, _ := strings.Cut(filepath.Base(path), "_380")
		b.cameras = append(b.cameras, &camera{name: name, r: s[0], g: s[1], b: s[2]})
	}
	npl := down(t, published(t, "cameras/Nikon_5100_NPL.csv"))
	b.cameras = append(b.cameras, &camera{name: "nikon_5100_npl", r: npl.of["r"], g: npl.of["g"], b: npl.of["b"]})
	for _, c := range b.cameras {
		c.warm = b.calibrate(c, "A", training)
		c.cool = b.calibrate(c, "D65", training)
	}
}

// calibrate fits balanced raw light to linear sRGB by least squares, the color
// being what an eye sees under that same light, as makers do it.
func (b *bench) calibrate(c *camera, under string, training []*spectrum) (out calibration) {
	light := b.lights.of[under]
	balance := c.raw(light, white)
	out.warmth = warmth(balance)
	raw, truth := mat.NewDense(len(training), 3, nil), mat.NewDense(len(training), 3, nil)
	for i, s := range training {
		v := c.raw(light, s)
		raw.SetRow(i, []float64{v[0] / balance[0], v[1] / balance[1], v[2] / balance[2]})
		r, g, bl := b.observer.see(light, s).XYZ().LinearSRGB()
		truth.SetRow(i, []float64{r, g, bl})
	}
	var fit mat.Dense
	if err := fit.Solve(raw, truth); err != nil {
		panic(err)
	}
	for to := range 3 {
		for from := range 3 {
			out.matrix[to][from] = fit.At(from, to)
		}
	}
	return out
}

// shot is one photo: one camera, one light, and everything that goes a little
// wrong in a careful photo.
type shot struct {
	camera   *camera
	light    *spectrum
	balance  RGB     // what the camera took for white
	exposure float64 // of a white surface, linear
	contrast float64 // of the tone curve
	flare    float64 // stray light, share of white
	uneven   float64 // standard deviation of the light from place to place
	random   *rand.Rand
}

// careful draws a careful photo: white balance off by 4 % a channel, exposure
// within a third of a stop, a contrast curve like a phone's, 0.3 % flare, the
// light even to 1 %.
func (b *bench) careful(c *camera, light *spectrum, random *rand.Rand) *shot {
	s := &shot{camera: c, light: light, random: random, flare: 0.003, uneven: 0.01}
	s.balance = c.raw(light, white)
	for k := range s.balance {
		s.balance[k] *= math.Exp(0.04 * random.NormFloat64())
	}
	s.exposure = 0.78 * math.Exp(0.12*random.NormFloat64())
	s.contrast = 0.1 + 0.4*random.Float64()
	return s
}

// take is the linear light the photo's file gives for a surface: what comes
// out of an 8-bit sRGB file, averaged over an area, read back as sRGB.
func (s *shot) take(surface *spectrum) (out RGB) {
	v := s.camera.raw(s.light, surface)
	gain := 1 + s.uneven*s.random.NormFloat64()
	for k := range v {
		v[k] = s.exposure * (gain*v[k]/s.balance[k] + s.flare)
	}
	m := s.camera.matrix(s.balance)
	r, g, b := m.Times(v[0], v[1], v[2])
	for k, light := range [...]float64{r, g, b} {
		out[k] = color.Linear(s.tone(color.Encoded(math.Min(math.Max(light, 0), 1))))
	}
	return out
}

// tone is the camera's contrast: an S about the middle of the encoded range.
func (s *shot) tone(v float64) float64 {
	return (1-s.contrast)*v + s.contrast*v*v*(3-2*v)
}
