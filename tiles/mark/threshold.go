package mark

// block is the side of a threshold block in pixels of the shrunk picture.
const blockSide = 8

// leastContrast is the least difference between light and dark near a pixel
// that is worth a contour, of 255.
const leastContrast = 24

// dark says for every pixel whether it is darker than the middle between the
// lightest and the darkest of its block and the eight around it. Where they
// hardly differ nothing is dark. The result has one byte a pixel, 1 for dark,
// with a border of zeros one pixel wide around the picture.
func (p Plane) dark() (bits []uint8, stride int) {
	bw, bh := (p.W+blockSide-1)/blockSide, (p.H+blockSide-1)/blockSide
	lo, hi := p.extremes(bw, bh)
	cut := cuts(lo, hi, bw, bh)
	stride = p.W + 2
	bits = make([]uint8, stride*(p.H+2))
	for y := range p.H {
		row := p.Pix[y*p.Stride:][:p.W]
		to := bits[(y+1)*stride+1:][:p.W]
		line := cut[y/blockSide*bw:][:bw]
		for bx, c := range line {
			end := min((bx+1)*blockSide, p.W)
			for x := bx * blockSide; x < end; x++ {
				if row[x] < c {
					to[x] = 1
				}
			}
		}
	}
	return bits, stride
}

// extremes is the darkest and lightest pixel of each block.
func (p Plane) extremes(bw, bh int) (lo, hi []uint8) {
	lo, hi = make([]uint8, bw*bh), make([]uint8, bw*bh)
	for i := range lo {
		lo[i] = 255
	}
	for y := range p.H {
		row := p.Pix[y*p.Stride:][:p.W]
		base := y / blockSide * bw
		for bx := range bw {
			l, h := lo[base+bx], hi[base+bx]
			for _, v := range row[bx*blockSide : min((bx+1)*blockSide, p.W)] {
				l, h = min(l, v), max(h, v)
			}
			lo[base+bx], hi[base+bx] = l, h
		}
	}
	return lo, hi
}

// cuts is each block's threshold from itself and its neighbors; 0 where there
// is no contrast.
func cuts(lo, hi []uint8, bw, bh int) []uint8 {
	out := make([]uint8, bw*bh)
	for by := range bh {
		for bx := range bw {
			l, h := uint8(255), uint8(0)
			for y := max(by-1, 0); y <= min(by+1, bh-1); y++ {
				for x := max(bx-1, 0); x <= min(bx+1, bw-1); x++ {
					l, h = min(l, lo[y*bw+x]), max(h, hi[y*bw+x])
				}
			}
			if h-l >= leastContrast {
				out[by*bw+bx] = uint8((int(l) + int(h) + 1) / 2)
			}
		}
	}
	return out
}
