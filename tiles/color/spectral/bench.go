package spectral

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
)

// Bench is everything a simulated photo is taken with.
type Bench struct {
	Observer Observer
	Lights   Table // CIE's daylights, lamps, tubes and LEDs
	Cameras  []*Camera
	Charts   []Table // two measurements of the 24-patch chart
	Surfaces []*Spectrum
}

// ReadBench reads the published spectra and makes each camera its matrices.
func ReadBench(t testing.TB) *Bench {
	b := &Bench{Observer: readObserver(t), Lights: Down(t, Published(t, "cie/illuminants_A_B_C_D_E_5nm.csv"))}
	for _, path := range []string{"cie/illuminants_FL1-12_5nm.csv", "cie/illuminants_FL3.1-3.15_5nm.csv"} {
		b.Lights.join(Down(t, Published(t, path)))
	}
	b.Lights.join(readLEDs(t))
	for _, path := range []string{"colorchecker/colorchecker_spectra_babelcolor_avg.csv", "colorchecker/colorchecker_spectra_ohta.csv"} {
		b.Charts = append(b.Charts, Down(t, Published(t, path)))
	}
	b.readSurfaces(t)
	b.readCameras(t)
	return b
}

// Truth is a surface's color as the wall means it: under D50, 2°.
func (b *Bench) Truth(surface *Spectrum) color.Lab {
	return b.Observer.See(b.Lights.Of["D50"], surface)
}

// readSurfaces takes glossy and matt chips that could be glazes: chroma up to
// 60, as the strongest reds and yellows fired in stoneware have.
func (b *Bench) readSurfaces(t testing.TB) {
	d50 := b.Lights.Of["D50"]
	for _, path := range []string{"munsell_gloss_380-780_5nm.csv", "munsell_matt_380-780_5nm.csv"} {
		chips := Across(t, Published(t, "reflectances/munsell-gloss-matt/"+path))
		for _, name := range chips.Names {
			if s := chips.Of[name]; b.Observer.See(d50, s).Chroma() <= 60 {
				b.Surfaces = append(b.Surfaces, s)
			}
		}
	}
	require.Greater(t, len(b.Surfaces), 2000)
}

func (b *Bench) readCameras(t testing.TB) {
	training := Nested(t, Published(t, "reflectances/rawtoaces-190/training_spectral.json"))
	paths, err := filepath.Glob(filepath.Join(Published(t, "cameras/rawtoaces"), "*.json"))
	require.NoError(t, err)
	for _, path := range paths {
		s := Nested(t, path)
		name, _, _ := strings.Cut(filepath.Base(path), "_380")
		b.Cameras = append(b.Cameras, &Camera{Name: name, r: s[0], g: s[1], b: s[2]})
	}
	npl := Down(t, Published(t, "cameras/Nikon_5100_NPL.csv"))
	b.Cameras = append(b.Cameras, &Camera{Name: "nikon_5100_npl", r: npl.Of["r"], g: npl.Of["g"], b: npl.Of["b"]})
	for _, c := range b.Cameras {
		c.warm = b.Calibrate(c, "A", training)
		c.cool = b.Calibrate(c, "D65", training)
	}
}
