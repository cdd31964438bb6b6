package photo

import (
	"image"
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// cicp is a color space as code points (ITU-T H.273).
type cicp struct {
	primaries, transfer, matrix int
	full                        bool
}

// lumaWeights are the red and blue weights of luma of matrices other than
// JPEG's (ITU-T H.273, table 4).
var lumaWeights = map[int][2]float64{
	1: {0.2126, 0.0722}, // BT.709
	9: {0.2627, 0.0593}, // BT.2020
}

type namedPrimaries struct {
	name string
	xy   [3][2]float64
}

var whiteD65 = [2]float64{0.3127, 0.3290}

// knownPrimaries are those a photograph may name (ITU-T H.273, table 2).
var knownPrimaries = map[int]namedPrimaries{
	1:  {"sRGB", [3][2]float64{{0.64, 0.33}, {0.30, 0.60}, {0.15, 0.06}}},
	9:  {"BT.2020", [3][2]float64{{0.708, 0.292}, {0.170, 0.797}, {0.131, 0.046}}},
	12: {"Display P3", [3][2]float64{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}}},
}

// profile makes the code points a profile; ok is false where they name none of
// the spaces above.
func (c *cicp) profile() (p Profile, ok bool, err error) {
	known, ok := knownPrimaries[c.primaries]
	if !ok {
		return Profile{}, false, nil
	}
	curve := color.Linear
	switch c.transfer {
	case 1, 6, 14, 15:
		curve = linear709
	case 4:
		curve = power(2.2)
	case 8:
		curve = power(1)
	case 16, 18:
		return Profile{}, false, refuse(doExport, "it is coded for high dynamic range")
	}
	return Profile{
		Name:  known.name,
		ToXYZ: color.RGBToXYZ(known.xy, whiteD65),
		curve: [3]curve1D{curve, curve, curve},
	}, true, nil
}

// linear709 is the inverse of the camera curve of ITU-R BT.709-6, 1.2.
func linear709(v float64) float64 {
	if v < 0.081 {
		return v / 4.5
	}
	return math.Pow((v+0.099)/1.099, 1/0.45)
}

func power(exponent float64) curve1D {
	return func(v float64) float64 { return math.Pow(v, exponent) }
}

// recode rewrites samples made with the given red and blue weights of luma as
// samples of JPEG's weights (0.299, 0.114), in place.
func recode(v *image.YCbCr, k [2]float64) {
	kr, kb := k[0], k[1]
	kg := 1 - kr - kb
	fromCr, fromCb := 2*(1-kr), 2*(1-kb)
	greenCr, greenCb := fromCr*kr/kg, fromCb*kb/kg
	yCb := 0.114*fromCb - 0.587*greenCb
	yCr := 0.299*fromCr - 0.587*greenCr
	for y := range v.Rect.Dy() {
		for x := range v.Rect.Dx() {
			c := v.COffset(x+v.Rect.Min.X, y+v.Rect.Min.Y)
			cb, cr := float64(v.Cb[c])-128, float64(v.Cr[c])-128
			at := y*v.YStride + x
			v.Y[at] = clamp8(float64(v.Y[at]) + yCb*cb + yCr*cr)
		}
	}
	for i := range v.Cb {
		cb, cr := float64(v.Cb[i])-128, float64(v.Cr[i])-128
		shift := yCb*cb + yCr*cr
		v.Cb[i] = clamp8(128 + (fromCb*cb-shift)/1.772)
		v.Cr[i] = clamp8(128 + (fromCr*cr-shift)/1.402)
	}
}

func clamp8(v float64) byte { return byte(min(255, max(0, v+0.5))) }
