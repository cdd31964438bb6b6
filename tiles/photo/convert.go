package photo

import (
	"image"
	stdcolor "image/color"
	"sync"

	"github.com/twodip/twodip/tiles/color"
)

// converter takes 8-bit codes of a profile to 8-bit sRGB.
type converter struct {
	light  [3][]float32
	toSRGB [3][3]float32
}

// encodeSteps is how finely linear light is looked up: within one code of the
// exact curve everywhere.
const encodeSteps = 1 << 13

var encoded = sync.OnceValue(func() []byte {
	t := make([]byte, encodeSteps+1)
	for i := range t {
		t[i] = byte(color.Encoded(float64(i)/encodeSteps)*255 + 0.5)
	}
	return t
})

func newConverter(p *Profile) *converter {
	inverse := color.SRGBToXYZ.Inverse()
	m := inverse.After(&p.ToXYZ)
	c := &converter{light: *p.Table(255)}
	for i := range m {
		for j := range m[i] {
			c.toSRGB[i][j] = float32(m[i][j])
		}
	}
	return c
}

func (c *converter) pixel(r, g, b byte) (sr, sg, sb byte) {
	lr, lg, lb := c.light[0][r], c.light[1][g], c.light[2][b]
	table := encoded()
	out := [3]byte{}
	for i := range out {
		v := c.toSRGB[i][0]*lr + c.toSRGB[i][1]*lg + c.toSRGB[i][2]*lb
		out[i] = table[int(min(1, max(0, v))*encodeSteps+0.5)]
	}
	return out[0], out[1], out[2]
}

func (c *converter) planes(rgb *[3]plane) {
	for i := range rgb[0].pix {
		rgb[0].pix[i], rgb[1].pix[i], rgb[2].pix[i] =
			c.pixel(rgb[0].pix[i], rgb[1].pix[i], rgb[2].pix[i])
	}
}

// toSRGB converts the picture from the profile, in place.
func (s *Small) toSRGB(p *Profile) {
	w, h := s.Rect.Dx(), s.Rect.Dy()
	c := newConverter(p)
	rgb := [3]plane{newPlane(w, h), newPlane(w, h), newPlane(w, h)}
	row := make([]uint16, 3*w)
	for y := range h {
		codesYCbCr(s.YCbCr, y, 0, row)
		for x := range w {
			at := y*w + x
			rgb[0].pix[at], rgb[1].pix[at], rgb[2].pix[at] =
				c.pixel(byte(row[3*x]), byte(row[3*x+1]), byte(row[3*x+2]))
		}
	}
	s.YCbCr = fromRGB(&rgb, w, h)
}

// fromRGB makes luma and chroma, the latter averaged over two by two pixels.
func fromRGB(rgb *[3]plane, w, h int) *image.YCbCr {
	out := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	cw, ch := chromaSize(out)
	for cy := range ch {
		for cx := range cw {
			var cb, cr, n int
			for y := 2 * cy; y < min(2*cy+2, h); y++ {
				for x := 2 * cx; x < min(2*cx+2, w); x++ {
					at := y*w + x
					l, b, r := stdcolor.RGBToYCbCr(rgb[0].pix[at], rgb[1].pix[at], rgb[2].pix[at])
					out.Y[y*out.YStride+x] = l
					cb, cr, n = cb+int(b), cr+int(r), n+1
				}
			}
			at := cy*out.CStride + cx
			out.Cb[at], out.Cr[at] = byte((cb+n/2)/n), byte((cr+n/2)/n)
		}
	}
	return out
}
