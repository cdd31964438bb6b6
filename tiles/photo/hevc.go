package photo

// A HEIC says the size of its picture twice: in a box, and in the coded stream
// itself, which is the one that the decoder takes memory for.

// streamSizes visits the size in every sequence parameter set of the boxes of
// properties (hvcC, ISO/IEC 14496-15, 8.3.2.1) and of the coded data, where
// each unit follows its length in four bytes.
func streamSizes(ipco, data []byte, visit func(width, height int)) {
	eachBox(ipco, func(kind string, body []byte) {
		if kind != "hvcC" || len(body) < 23 {
			return
		}
		r := boxReader{data: body[23:]}
		for range body[22] {
			r.number(false, 1)
			for range r.number(true, 2) {
				if n := int(r.number(true, 2)); n <= len(r.data) {
					visitSize(r.data[:n], visit)
					r.data = r.data[n:]
				}
			}
		}
	})
	for i := 4; i+2 <= len(data); i++ {
		if data[i] != 0x42 || data[i+1] != 1 || data[i-4] != 0 || data[i-3] != 0 {
			continue
		}
		if n := int(be16(data[i-2:])); n <= 1024 && i+n <= len(data) {
			visitSize(data[i:i+n], visit)
		}
	}
}

// visitSize reads the size from a sequence parameter set (ITU-T H.265,
// 7.3.2.2.1 and, for what stands before it, 7.3.3); another unit is passed over.
func visitSize(unit []byte, visit func(width, height int)) {
	if len(unit) < 3 || unit[0]>>1&0x3f != 33 {
		return
	}
	r := bitReader{data: withoutEscapes(unit[2:])}
	r.skip(4)
	layers := r.bits(3)
	r.skip(1 + 88 + 8)
	present := make([][2]uint32, layers)
	for i := range present {
		present[i] = [2]uint32{r.bits(1), r.bits(1)}
	}
	if layers > 0 {
		r.skip(2 * (8 - int(layers)))
	}
	for _, p := range present {
		r.skip(88*int(p[0]) + 8*int(p[1]))
	}
	r.golomb()
	if r.golomb() == 3 {
		r.skip(1)
	}
	width, height := r.golomb(), r.golomb()
	if !r.short {
		visit(int(width), int(height))
	}
}

// withoutEscapes takes away the 3 of each 0 0 3 (ITU-T H.265, 7.3.1.1).
func withoutEscapes(unit []byte) []byte {
	var out []byte
	zeros := 0
	for _, b := range unit {
		if zeros >= 2 && b == 3 {
			zeros = 0
			continue
		}
		if zeros++; b != 0 {
			zeros = 0
		}
		out = append(out, b)
	}
	return out
}

// bitReader reads bits, the first one highest; short says that they ran out.
type bitReader struct {
	data  []byte
	at    int
	short bool
}

func (r *bitReader) skip(n int) { r.at += n }

func (r *bitReader) bits(n int) (v uint32) {
	for range n {
		if r.at>>3 >= len(r.data) {
			r.short = true
			return 0
		}
		v = v<<1 | uint32(r.data[r.at>>3]>>(7-r.at&7)&1)
		r.at++
	}
	return v
}

// golomb reads a number as ue(v) writes it (ITU-T H.265, 9.2).
func (r *bitReader) golomb() uint32 {
	zeros := 0
	for r.bits(1) == 0 && !r.short {
		zeros++
	}
	if r.short || zeros > 31 {
		r.short = true
		return 0
	}
	return 1<<zeros - 1 + r.bits(zeros)
}
