package photo

import (
	"encoding/binary"
	"math"
)

// shrink reduces src to the size of dst: first an exact average over whole
// boxes, which costs little, then a Catmull–Rom kernel for what is left, a
// factor under two.
func shrink(src, dst plane) {
	kx, ky := max(1, src.w/dst.w), max(1, src.h/dst.h)
	w, h := float64(src.w)/float64(kx), float64(src.h)/float64(ky)
	if kx > 1 || ky > 1 {
		boxed := newPlane(src.w/kx, src.h/ky)
		box(src, kx, ky, boxed)
		src = boxed
	}
	resample(src, dst, w, h)
}

// box averages boxes of kx by ky samples, rounding to the nearest. A last
// column or row that fills no box is left out.
func box(src plane, kx, ky int, dst plane) {
	sums := make([]uint16, (src.w+7)&^7)
	inverse := uint32((1<<24 + kx*ky/2) / (kx * ky))
	for y := range dst.h {
		addRows(sums, src.pix[y*ky*src.stride:], src.stride, src.w, min(ky, 257))
		out := dst.pix[y*dst.stride:][:dst.w]
		for x := range out {
			var sum uint32
			for _, s := range sums[x*kx : x*kx+kx] {
				sum += uint32(s)
			}
			out[x] = byte(min(255, (uint64(sum)*uint64(inverse)+1<<23)>>24))
		}
	}
}

// addRows sums rows samples down each of w columns, eight columns at a time in
// two words of four 16-bit lanes.
func addRows(sums []uint16, pix []byte, stride, w, rows int) {
	const lanes = 0x00ff00ff00ff00ff
	x := 0
	for ; x+8 <= w; x += 8 {
		var even, odd uint64
		for r, at := 0, x; r < rows; r, at = r+1, at+stride {
			v := binary.LittleEndian.Uint64(pix[at : at+8])
			even += v & lanes
			odd += v >> 8 & lanes
		}
		s := sums[x : x+8 : x+8]
		s[0], s[1] = uint16(even), uint16(odd)
		s[2], s[3] = uint16(even>>16), uint16(odd>>16)
		s[4], s[5] = uint16(even>>32), uint16(odd>>32)
		s[6], s[7] = uint16(even>>48), uint16(odd>>48)
	}
	for ; x < w; x++ {
		sum := 0
		for r := range rows {
			sum += int(pix[r*stride+x])
		}
		sums[x] = uint16(sum)
	}
}

// resample brings src to the size of dst. The extent of src in its own samples
// is w by h: a little more than it holds where a box was left over.
func resample(src, dst plane, w, h float64) {
	if src.w == dst.w && src.h == dst.h {
		for y := range dst.h {
			copy(dst.pix[y*dst.stride:][:dst.w], src.pix[y*src.stride:][:src.w])
		}
		return
	}
	across, down := kernel(w, src.w, dst.w), kernel(h, src.h, dst.h)
	mid := newPlane(dst.w, src.h)
	for y := range src.h {
		row, out := src.pix[y*src.stride:][:src.w], mid.pix[y*mid.stride:][:dst.w]
		for x := range out {
			t := &across[x]
			var sum int32
			for i, v := range row[t.first : t.first+len(t.weights)] {
				sum += int32(v) * t.weights[i]
			}
			out[x] = round(sum)
		}
	}
	sums := make([]int32, dst.w)
	for y := range dst.h {
		clear(sums)
		t := &down[y]
		for i, weight := range t.weights {
			for x, v := range mid.pix[(t.first+i)*mid.stride:][:len(sums)] {
				sums[x] += int32(v) * weight
			}
		}
		out := dst.pix[y*dst.stride:][:len(sums)]
		for x, sum := range sums {
			out[x] = round(sum)
		}
	}
}

const weightBits = 14

func round(sum int32) byte {
	v := (sum + 1<<(weightBits-1)) >> weightBits
	if uint32(v) <= 255 {
		return byte(v)
	}
	return byte(^(v >> 31))
}

// taps are the weights of neighboring samples, in 1/2^14, from the first on.
type taps struct {
	first   int
	weights []int32
}

// kernel gives the taps of each of out samples spread over extent samples, of
// which there are in. Catmull–Rom, widened by the ratio.
func kernel(extent float64, in, out int) []taps {
	ratio := extent / float64(out)
	scale := max(1, ratio)
	all := make([]taps, out)
	for i := range all {
		center := (float64(i)+0.5)*ratio - 0.5
		first := max(0, int(math.Ceil(center-2*scale)))
		last := min(in-1, int(math.Floor(center+2*scale)))
		first = min(first, last)
		all[i] = taps{first, weigh(center, scale, first, last)}
	}
	return all
}

// weigh samples the kernel and makes the weights sum to exactly one.
func weigh(center, scale float64, first, last int) []int32 {
	exact := make([]float64, last-first+1)
	var sum float64
	for i := range exact {
		exact[i] = catmullRom((float64(first+i) - center) / scale)
		sum += exact[i]
	}
	weights := make([]int32, len(exact))
	left, middle := int32(1<<weightBits), 0
	for i, v := range exact {
		weights[i] = int32(math.Round(v / sum * (1 << weightBits)))
		left -= weights[i]
		if v > exact[middle] {
			middle = i
		}
	}
	weights[middle] += left
	return weights
}

// catmullRom is the cubic convolution kernel with a = −1/2 (Keys, IEEE Trans.
// ASSP 29 (1981) 1153–1160).
func catmullRom(x float64) float64 {
	x = math.Abs(x)
	switch {
	case x < 1:
		return (1.5*x-2.5)*x*x + 1
	case x < 2:
		return ((-0.5*x+2.5)*x-4)*x + 2
	}
	return 0
}
