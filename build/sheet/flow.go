package sheet

// flow stacks parts down a page and on to the next one; no part is split.
type flow struct {
	s     *pinned
	left  float64 // room left on the page, mm
	parts []flowPart
}

// flowPart is something of a known height that draws itself with its top at y.
type flowPart struct {
	tall float64
	draw func(a area)
}

func (s *pinned) flow() *flow { return &flow{s: s, left: s.body().h} }

// add takes a part, on the next page where it does not fit on this one. keep
// is the height of what must follow it on the same page.
func (f *flow) add(tall, keep float64, draw func(a area)) {
	if tall+keep > f.left && len(f.parts) > 0 {
		f.turn()
	}
	f.parts = append(f.parts, flowPart{tall, draw})
	f.left -= tall
}

// turn ends the page.
func (f *flow) turn() {
	if len(f.parts) == 0 {
		return
	}
	parts := f.parts
	f.s.add(func(body area) {
		y := body.y
		for _, p := range parts {
			p.draw(area{body.x, y, body.w, p.tall})
			y += p.tall
		}
	})
	f.parts, f.left = nil, f.s.body().h
}
