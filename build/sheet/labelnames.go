package sheet

import (
	"github.com/twodip/twodip/tiles"
)

// coat is one coat as a label says it: "1st QM" in bold, then the name.
type coat struct{ lead, name string }

// coats says a pair in the order of dipping.
func (l *labeler) coats(pair tiles.Pair) [2]coat {
	first := l.job.Wall.Glaze(pair.First)
	said := [2]coat{{"1st " + clean(first.Code), clean(first.Name)}}
	if pair.Single() {
		said[1].name = "one coat, alone"
		return said
	}
	second := l.job.Wall.Glaze(pair.Second)
	said[1] = coat{"→ 2nd " + clean(second.Code), clean(second.Name)}
	if pair.Double() {
		said[1].name += " again"
	}
	return said
}

// setKey is a coat and the room it is set in: a wall of sixty glazes sets each
// name once, not sixty times.
type setKey struct {
	coat
	w, h float64
	way  coatWay
}

// setCoat is a coat ready to print.
type setCoat struct {
	lead   style
	beside bool // the name after the lead on one line; otherwise below it
	name   block
	tall   float64 // from the cap line to the last baseline
	err    error   // it does not fit
}

// coatsIn prints both coats in the foot of an area, the last baseline on its
// lower edge. Both are set the same way: names beside their leads on one line,
// or below them, or beside them however small.
func (l *labeler) coatsIn(a area, pair tiles.Pair) error {
	said := l.coats(pair)
	const between = 0.32 // of the type's size
	room := (a.h - between*l.layout.name.mm()) / 2
	var first, second setCoat
	var err error
	for _, way := range []coatWay{{true, 0.75 * l.layout.name.pt, false}, {false, leastLabel, true}, {true, leastLabel, true}} {
		first, err = l.setCoat(said[0], a.w, room, way)
		if err != nil {
			continue
		}
		if second, err = l.setCoat(said[1], a.w, room, way); err == nil {
			break
		}
	}
	if err != nil {
		return err
	}
	gap := min(2*between*l.layout.name.mm(), a.h-first.tall-second.tall)
	l.printCoat(a.x, a.y+a.h-second.tall-gap-first.tall, said[0], first)
	l.printCoat(a.x, a.y+a.h-second.tall, said[1], second)
	return nil
}

// coatWay is one way to set a coat: where the name stands, how small it may
// be, whether it may take more than a line.
type coatWay struct {
	beside bool
	least  float64
	wrap   bool
}

// setCoat sets a coat into w × h mm, the height counted down to the last
// baseline.
func (l *labeler) setCoat(c coat, w, h float64, way coatWay) (setCoat, error) {
	key := setKey{c, w, h, way}
	if s, ok := l.names[key]; ok {
		return s, s.err
	}
	s := setCoat{lead: l.layout.name.heavy(), beside: way.beside || c.lead == ""}
	left, used := 0.0, 0.0
	for ; s.lead.pt > way.least && l.width(s.lead, c.lead) > w; s.lead.pt -= 0.25 {
	}
	if s.beside {
		left = l.besideAt(s.lead, c.lead)
	} else {
		used = s.lead.leading()
	}
	room := h - used + descent*l.layout.name.mm()
	if !way.wrap {
		room = min(room, l.layout.name.leading())
	}
	s.name, s.err = l.fit(c.name, l.layout.name, w-left, room, way.least)
	s.tall = used + s.name.tall() - descent*s.name.mm()
	if s.beside {
		s.tall += max(0, s.lead.capHeight()-s.name.capHeight())
	}
	l.names[key] = s
	return s, s.err
}

// besideAt is how far from a lead's left end the name after it begins.
func (l *labeler) besideAt(st style, lead string) float64 {
	if lead == "" {
		return 0
	}
	return l.width(st, lead+" ") + 0.25*st.mm()
}

// printCoat prints a set coat with its cap line at y.
func (l *labeler) printCoat(x, y float64, c coat, s setCoat) {
	l.text(x, y+s.lead.capHeight(), s.lead, c.lead)
	if !s.beside {
		l.block(x, y+s.lead.leading(), s.name)
		return
	}
	l.block(x+l.besideAt(s.lead, c.lead), y+max(0, s.lead.capHeight()-s.name.capHeight()), s.name)
}
