package photo

// heifFile is what the boxes of a HEIF file say of its primary picture
// (ISO/IEC 23008-12; ISO/IEC 14496-12).
type heifFile struct {
	header
	space space
}

// scanHEIF reads the size and the colour box of the primary picture, and
// refuses a file in which any picture claims more than the bounds allow.
func scanHEIF(data []byte) (heifFile, error) {
	f := heifFile{header: header{fileBytes: len(data)}}
	meta := childBox(data, "meta")
	if len(meta) < 4 {
		return f, errCut
	}
	meta = meta[4:]
	iprp := childBox(meta, "iprp")
	linked := linkedTo(childBox(iprp, "ipma"), primaryItem(childBox(meta, "pitm")))
	index := 0
	var bad error
	var own, first space
	eachBox(childBox(iprp, "ipco"), func(kind string, body []byte) {
		index++
		h := header{perPixel: 3, fileBytes: len(data)}
		if kind == "ispe" && len(body) >= 12 {
			h.width, h.height = int(be32(body[4:])), int(be32(body[8:]))
			if err := h.check(); err != nil && bad == nil {
				bad = err
			}
		}
		if kind == "colr" && first.icc == nil && first.cicp == nil {
			first.colorBox(body)
		}
		if linked != nil && !linked[index] {
			return
		}
		switch kind {
		case "ispe":
			f.header = h
		case "colr":
			own.colorBox(body)
		}
	})
	streamSizes(childBox(iprp, "ipco"), data, func(width, height int) {
		h := header{width: width, height: height, perPixel: 3, fileBytes: len(data)}
		if err := h.check(); err != nil && bad == nil {
			bad = err
		}
	})
	// Some phones link the colors to the tiles of a grid, not to the grid.
	f.space = own
	if own.icc == nil && own.cicp == nil {
		f.space = first
	}
	if bad == nil && f.width == 0 {
		bad = errCut
	}
	return f, bad
}

// colorBox notes a colour box: a profile, or code points.
func (s *space) colorBox(body []byte) {
	if len(body) < 4 {
		return
	}
	switch kind, rest := string(body[:4]), body[4:]; {
	case (kind == "prof" || kind == "rICC") && len(rest) <= maxICC:
		s.icc = rest
	case kind == "nclx" && len(rest) >= 7:
		s.cicp = &cicp{
			primaries: int(be16(rest)), transfer: int(be16(rest[2:])),
			matrix: int(be16(rest[4:])), full: rest[6]&0x80 != 0,
		}
	}
}

// eachBox calls visit for every box at the top of data.
func eachBox(data []byte, visit func(kind string, body []byte)) {
	for len(data) >= 8 {
		size, head := uint64(be32(data)), 8
		switch {
		case size == 0:
			size = uint64(len(data))
		case size == 1 && len(data) >= 16:
			size, head = uint64(be32(data[8:]))<<32|uint64(be32(data[12:])), 16
		}
		if size < uint64(head) || size > uint64(len(data)) {
			return
		}
		visit(string(data[4:8]), data[head:size])
		data = data[size:]
	}
}

// childBox is the body of the first box of the kind, or nil.
func childBox(data []byte, kind string) (found []byte) {
	eachBox(data, func(k string, body []byte) {
		if k == kind && found == nil {
			found = body
		}
	})
	return found
}

// primaryItem reads pitm; 0 is no item.
func primaryItem(body []byte) uint32 {
	switch {
	case len(body) >= 6 && body[0] == 0:
		return uint32(be16(body[4:]))
	case len(body) >= 8:
		return be32(body[4:])
	}
	return 0
}

// linkedTo reads from ipma the 1-based indexes of the properties of the item;
// nil where the box does not say.
func linkedTo(body []byte, item uint32) map[int]bool {
	if len(body) < 8 || item == 0 {
		return nil
	}
	wideID, wideIndex := body[0] > 0, body[3]&1 != 0
	count, r := be32(body[4:]), boxReader{data: body[8:]}
	for range count {
		id := r.number(wideID, 4)
		links := make(map[int]bool)
		for range r.number(false, 1) {
			mask := uint32(0x7f)
			if wideIndex {
				mask = 0x7fff
			}
			links[int(r.number(wideIndex, 2)&mask)] = true
		}
		if r.short {
			return nil
		}
		if id == item {
			return links
		}
	}
	return nil
}

// boxReader reads big-endian numbers; short says that the data ran out.
type boxReader struct {
	data  []byte
	short bool
}

// number reads a number of wideBytes, or where it is not wide, of half as many.
func (r *boxReader) number(wide bool, wideBytes int) uint32 {
	n := wideBytes
	if !wide {
		n = max(1, wideBytes/2)
	}
	if len(r.data) < n {
		r.short = true
		return 0
	}
	var v uint32
	for _, b := range r.data[:n] {
		v = v<<8 | uint32(b)
	}
	r.data = r.data[n:]
	return v
}
