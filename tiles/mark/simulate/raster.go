package simulate

import (
	"image"
	"math"
)

// Picture is a surface that looks like a picture of width × height mm, read
// between its pixels; white in the picture is white paper, black is ink.
func Picture(img image.Image, width, height float64) func(x, y float64) RGB {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	pix := make([]RGB, w*h)
	for j := range h {
		for i := range w {
			r, g, bl, _ := img.At(b.Min.X+i, b.Min.Y+j).RGBA()
			for k, v := range [3]uint32{r, g, bl} {
				pix[j*w+i][k] = Ink[k] + (White[k]-Ink[k])*float32(Linear(float64(v)/0xffff))
			}
		}
	}
	return func(x, y float64) RGB {
		u := min(max(x/width*float64(w)-0.5, 0), float64(w-1))
		v := min(max(y/height*float64(h)-0.5, 0), float64(h-1))
		i, j := min(int(u), w-2), min(int(v), h-2)
		fu, fv := float32(u-float64(i)), float32(v-float64(j))
		var out RGB
		for k := range out {
			a := pix[j*w+i][k]*(1-fu) + pix[j*w+i+1][k]*fu
			c := pix[(j+1)*w+i][k]*(1-fu) + pix[(j+1)*w+i+1][k]*fu
			out[k] = a*(1-fv) + c*fv
		}
		return out
	}
}

// Linear undoes sRGB's curve (IEC 61966-2-1).
func Linear(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// SRGB is the linear light of a color given in 8-bit sRGB.
func SRGB(r, g, b uint8) RGB {
	return RGB{float32(Linear(float64(r) / 255)), float32(Linear(float64(g) / 255)), float32(Linear(float64(b) / 255))}
}
