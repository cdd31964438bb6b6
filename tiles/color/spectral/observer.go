package spectral

import (
	"testing"

	"github.com/twodip/twodip/tiles/color"
)

// Observer sums a reflectance under a light into XYZ, white being 1.
type Observer struct{ x, y, z *Spectrum }

func readObserver(t testing.TB) Observer {
	cmf := Down(t, Published(t, "cie/cie1931_2deg_5nm.csv"))
	return Observer{cmf.Of["xbar"], cmf.Of["ybar"], cmf.Of["zbar"]}
}

// See is the true color of a surface: CIELAB under the light, with the white
// summed the same way, as CIE 15:2004, 7.1 and 8.2.1 have it.
func (o Observer) See(light, surface *Spectrum) color.Lab {
	var c, white color.XYZ
	for i := range Bands {
		w := light[i]
		c.X += w * surface[i] * o.x[i]
		c.Y += w * surface[i] * o.y[i]
		c.Z += w * surface[i] * o.z[i]
		white.X += w * o.x[i]
		white.Y += w * o.y[i]
		white.Z += w * o.z[i]
	}
	return color.XYZ{
		X: c.X / white.X * color.D50.X,
		Y: c.Y / white.Y,
		Z: c.Z / white.Z * color.D50.Z,
	}.Lab()
}

// Chromaticity is the CIE 1931 x, y of a light (CIE 15:2004, 7.3).
func (o Observer) Chromaticity(light *Spectrum) (x, y float64) {
	var c color.XYZ
	for i, v := range light {
		c.X += v * o.x[i]
		c.Y += v * o.y[i]
		c.Z += v * o.z[i]
	}
	sum := c.X + c.Y + c.Z
	return c.X / sum, c.Y / sum
}
