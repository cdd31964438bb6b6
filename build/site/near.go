package site

import "github.com/twodip/twodip/tiles"

// other is the tile of the same two glazes in the other order, or nil.
func (w *hanging) other(h *hung) *hung {
	if h.Single() || h.Double() {
		return nil
	}
	return w.own[h.Reverse().Key()]
}

// beside shows a tile in a list on a page at path.
func (m *maker) beside(path string, h *hung, says string) Beside {
	b := Beside{Href: root(path) + h.Number.PagePath(), Number: h.Number.String(), Coats: h.coats(), Says: says, Marks: m.shortMarks(h)}
	if h.read {
		b.Swatch = []Swatch{swatch(h.lab, h.reading.Class)}
	}
	return b
}

// neighbors lists the tiles that teach something about this one: the other
// order, each glaze alone, the next with the same first and with the same
// second, and its repeats.
func (m *maker) neighbors(path string, h *hung) []Neighbor {
	var ns []Neighbor
	listed := map[*hung]bool{}
	add := func(why string, o *hung) {
		if o != nil && o != h && !listed[o] {
			listed[o] = true
			ns = append(ns, Neighbor{why, m.beside(path, o, distance(h, o))})
		}
	}
	if h.Repeats != 0 {
		add("The wall's own tile of this pair", m.by[h.Repeats])
	}
	add("The other order", m.other(h))
	add("1st alone", m.alone(h.First))
	if !h.Double() {
		add("2nd alone", m.alone(h.Second))
	}
	add("Next with the same 1st", m.next(h, true))
	add("Next with the same 2nd", m.next(h, false))
	for _, r := range h.again {
		add("Fired again", r)
	}
	return ns
}

// alone is the wall's tile of one glaze: one coat, or else two of the same.
func (w *hanging) alone(code string) *hung {
	if code == "" {
		return nil
	}
	if h, ok := w.own[tiles.Pair{First: code}.Key()]; ok {
		return h
	}
	return w.own[tiles.Pair{First: code, Second: code}.Key()]
}

// next is the next tile along the row (same first) or down the column (same
// second) of the wall; after the last comes the first.
func (w *hanging) next(h *hung, along bool) *hung {
	if h.Single() {
		return nil
	}
	start := h.First
	if along {
		start = h.Second
	}
	at := 0
	for i, g := range w.glaze {
		if tiles.SameCode(g.Code, start) {
			at = i
		}
	}
	for i := 1; i < len(w.glaze); i++ {
		code := w.glaze[(at+i)%len(w.glaze)].Code
		p := tiles.Pair{First: code, Second: h.Second}
		if along {
			p = tiles.Pair{First: h.First, Second: code}
		}
		if o, ok := w.own[p.Key()]; ok {
			return o
		}
	}
	return nil
}
