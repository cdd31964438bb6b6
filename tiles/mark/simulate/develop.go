package simulate

import (
	"image"
	"math"
	"math/rand/v2"
)

// develop blurs a plane, lays glare and flare over it and adds noise.
func develop(p []float32, c Camera, l Light, r *rand.Rand) {
	for _, g := range l.Glare {
		addGlare(p, c, g)
	}
	if l.Flare > 0 {
		mean := 0.0
		for _, v := range p {
			mean += float64(v)
		}
		add := l.Flare * float32(mean/float64(len(p)))
		for i := range p {
			p[i] += add
		}
	}
	if l.Motion > 1 {
		smear(p, c.W, l.Motion)
	}
	blur(p, c.W, c.H, l.Blur)
	if l.Noise > 0 {
		addNoise(p, l.Noise, r)
	}
	tone(p, l.Curve)
}

func addGlare(p []float32, c Camera, g Glare) {
	gx, gy, gr := g.X*float64(c.W), g.Y*float64(c.H), g.Radius*float64(c.W)
	for y := max(int(gy-3*gr), 0); y < min(int(gy+3*gr), c.H); y++ {
		for x := max(int(gx-3*gr), 0); x < min(int(gx+3*gr), c.W); x++ {
			d := (math.Pow(float64(x)-gx, 2) + math.Pow(float64(y)-gy, 2)) / (2 * gr * gr)
			p[y*c.W+x] += float32(g.Strength * math.Exp(-d))
		}
	}
}

// addNoise follows the square root of the light, as photons do, with a floor.
func addNoise(p []float32, sigma float64, r *rand.Rand) {
	table := make([]float32, 1<<16)
	for i := range table {
		table[i] = float32(r.NormFloat64() * sigma)
	}
	for i, v := range p {
		p[i] = v + table[r.Uint32()>>16]*float32(math.Sqrt(float64(max(v, 0)+0.02)))
	}
}

// tone is sRGB's curve with a film-like shoulder mixed in.
func tone(p []float32, strength float64) {
	const n = 4096
	var table [n + 1]float32
	for i := range table {
		v := float64(i) / n
		v = (1-strength)*v + strength*v*v*(3-2*v)
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		table[i] = float32(v)
	}
	for i, v := range p {
		p[i] = table[int(min(max(v, 0), 1)*n+0.5)]
	}
}

func picture(planes [][]float32, w, h int) image.Image {
	code := func(v float32) uint8 { return uint8(v*255 + 0.5) }
	if len(planes) == 1 {
		img := image.NewGray(image.Rect(0, 0, w, h))
		for i, v := range planes[0] {
			img.Pix[i] = code(v)
		}
		return img
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range planes[0] {
		for k := range planes {
			img.Pix[4*i+k] = code(planes[k][i])
		}
		img.Pix[4*i+3] = 255
	}
	return img
}
