package mark

import (
	"image"
	"math"
)

// sharpened undoes a blur of σ pixels in part: what a further blur takes away
// is added again, amount times (unsharp masking).
func sharpened(g *image.Gray, sigma, amount float64) *image.Gray {
	w, h := g.Rect.Dx(), g.Rect.Dy()
	soft := make([]float32, w*h)
	for y := range h {
		for x, v := range g.Pix[y*g.Stride:][:w] {
			soft[y*w+x] = float32(v)
		}
	}
	for range 3 { // three boxes come near a Gaussian
		box := int(math.Round(sigma * 0.87))
		smoothRows(soft, w, h, 1, w, box)
		smoothRows(soft, h, w, w, 1, box)
	}
	out := image.NewGray(g.Rect)
	for y := range h {
		for x, v := range g.Pix[y*g.Stride:][:w] {
			s := float64(v) + amount*(float64(v)-float64(soft[y*w+x]))
			out.Pix[y*out.Stride+x] = uint8(min(max(s, 0), 255))
		}
	}
	return out
}

// smoothRows averages reach values on both sides along n lines of length
// values, step apart, the lines lying stride apart.
func smoothRows(v []float32, length, lines, step, stride, reach int) {
	old := make([]float32, length)
	for k := range lines {
		at := k * stride
		for i := range old {
			old[i] = v[at+i*step]
		}
		sum := float32(0)
		for i := -reach; i <= reach; i++ {
			sum += old[min(max(i, 0), length-1)]
		}
		for i := range old {
			v[at+i*step] = sum / float32(2*reach+1)
			sum += old[min(i+reach+1, length-1)] - old[max(i-reach, 0)]
		}
	}
}
