package simulate

import "math"

// blur is a Gaussian of σ pixels, rows then columns.
func blur(p []float32, w, h int, sigma float64) {
	if sigma <= 0 {
		return
	}
	k := kernel(sigma)
	rows(p, w, k)
	columns(p, w, h, k)
}

// smear averages n pixels along the rows.
func smear(p []float32, w, n int) {
	k := make([]float32, n|1)
	for i := range k {
		k[i] = 1 / float32(len(k))
	}
	rows(p, w, k)
}

func kernel(sigma float64) []float32 {
	n := int(math.Ceil(3 * sigma))
	k := make([]float32, 2*n+1)
	sum := float32(0)
	for i := range k {
		k[i] = float32(math.Exp(-math.Pow(float64(i-n), 2) / (2 * sigma * sigma)))
		sum += k[i]
	}
	for i := range k {
		k[i] /= sum
	}
	return k
}

func rows(p []float32, w int, k []float32) {
	n := len(k) / 2
	padded := make([]float32, w+2*n)
	for y := 0; y < len(p); y += w {
		row := p[y : y+w]
		copy(padded[n:], row)
		for i := range n {
			padded[i], padded[w+n+i] = row[0], row[w-1]
		}
		for x := range row {
			s := float32(0)
			for i, f := range k {
				s += f * padded[x+i]
			}
			row[x] = s
		}
	}
}

// columns keeps the last rows as they were in a ring.
func columns(p []float32, w, h int, k []float32) {
	n := len(k) / 2
	ring := make([][]float32, len(k))
	for i := range ring {
		ring[i] = append([]float32(nil), p[min(max(i-n, 0), h-1)*w:][:w]...)
	}
	for y := range h {
		out := p[y*w:][:w]
		// The row that enters the ring at the next step is still unblurred.
		clear(out)
		from := func(i int) []float32 { return ring[(y+i)%len(ring)][:w] }
		i := 0
		for ; i+4 <= len(k); i += 4 { // four at a time, in their order: to go over out costs most
			f, a, b, c, d := k[i:i+4], from(i), from(i+1), from(i+2), from(i+3)
			for x, s := range out {
				s += f[0] * a[x]
				s += f[1] * b[x]
				s += f[2] * c[x]
				s += f[3] * d[x]
				out[x] = s
			}
		}
		for ; i < len(k); i++ {
			for x, v := range from(i) {
				out[x] += k[i] * v
			}
		}
		next := min(y+n+1, h-1)
		if next > y {
			copy(ring[y%len(ring)], p[next*w:][:w])
		} else {
			copy(ring[y%len(ring)], ring[(y+len(ring)-1)%len(ring)])
		}
	}
}
