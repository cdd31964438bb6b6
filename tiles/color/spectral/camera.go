package spectral

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/color"
)

// RGB is linear light as a camera counts it or writes it.
type RGB = [3]float64

// Camera is the measured sensitivities of a camera and the two matrices its
// maker would have put in: raw, white-balanced light to linear sRGB, fitted on
// the training spectra under lamplight (A) and daylight (D65). For other lights
// it mixes the two by how warm its white balance is, as the DNG format has it.
type Camera struct {
	Name       string
	r, g, b    *Spectrum
	warm, cool Calibration
}

// Calibration is a matrix and the warmth of the light it was made under.
type Calibration struct {
	warmth float64
	Matrix color.Matrix
}

// warmth is how much more red than blue a camera counts for white.
func warmth(balance RGB) float64 { return math.Log(balance[0] / balance[2]) }

// matrix is what the camera uses under the white it found.
func (c *Camera) matrix(balance RGB) (m color.Matrix) {
	share := (warmth(balance) - c.cool.warmth) / (c.warm.warmth - c.cool.warmth)
	share = math.Min(math.Max(share, 0), 1)
	for i := range m {
		for k := range m[i] {
			m[i][k] = c.cool.Matrix[i][k] + share*(c.warm.Matrix[i][k]-c.cool.Matrix[i][k])
		}
	}
	return m
}

// Raw is what the sensor counts, before white balance.
func (c *Camera) Raw(light, surface *Spectrum) (out RGB) {
	for i := range Bands {
		w := light[i] * surface[i]
		out[0] += w * c.r[i]
		out[1] += w * c.g[i]
		out[2] += w * c.b[i]
	}
	return out
}

// Calibrate fits balanced raw light to linear sRGB by least squares, the color
// being what an eye sees under that same light, as makers do it.
func (b *Bench) Calibrate(c *Camera, under string, training []*Spectrum) (out Calibration) {
	light := b.Lights.Of[under]
	balance := c.Raw(light, White)
	out.warmth = warmth(balance)
	raw, truth := mat.NewDense(len(training), 3, nil), mat.NewDense(len(training), 3, nil)
	for i, s := range training {
		v := c.Raw(light, s)
		raw.SetRow(i, []float64{v[0] / balance[0], v[1] / balance[1], v[2] / balance[2]})
		r, g, bl := b.Observer.See(light, s).XYZ().LinearSRGB()
		truth.SetRow(i, []float64{r, g, bl})
	}
	var fit mat.Dense
	if err := fit.Solve(raw, truth); err != nil {
		panic(err)
	}
	for to := range 3 {
		for from := range 3 {
			out.Matrix[to][from] = fit.At(from, to)
		}
	}
	return out
}
