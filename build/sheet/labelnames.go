package sheet

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
)

// coat is one coat as a label says it: "1st QM" in bold, then the name.
type coat struct{ lead, name string }

// coats says a pair in the order of dipping.
func (l *labeler) coats(pair tiles.Pair) [2]coat {
	first := l.job.Wall.Glaze(pair.First)
	said := [2]coat{{"1st " + tiles.Apart(clean(first.Code)), tiles.Apart(clean(first.Name))}}
	if pair.Single() {
		said[1].name = "one coat, alone"
		return said
	}
	second := l.job.Wall.Glaze(pair.Second)
	said[1] = coat{"→ 2nd " + tiles.Apart(clean(second.Code)), tiles.Apart(clean(second.Name))}
	if pair.Double() {
		said[1].name += " again"
	}
	return said
}

// setKey is a pair of coats and the room they are set in: a wall of sixty
// glazes sets each name a few times, not sixty.
type setKey struct {
	coat
	w, h float64
	way  coatWay
}

// setCoat is a coat ready to print.
type setCoat struct {
	coat
	leadStyle style // the lead's
	way       coatWay
	set       block   // the name's
	tall      float64 // from the cap line to the last baseline
	err       error   // it does not fit
}

// coatWay is where a name stands: beside its lead on one line, below it, or
// run in, on from the lead and around.
type coatWay int

const (
	beside coatWay = iota
	below
	runIn
)

// between is the least white between the coats, as a share of the type's size.
const between = 0.32

// setCoats sets both coats of a pair for an area, the same way.
func (l *labeler) setCoats(a area, pair tiles.Pair) (set [2]setCoat, err error) {
	said := l.coats(pair)
	room := (a.h - between*l.layout.name.mm()) / 2
	for _, way := range []coatWay{beside, below} {
		if l.layout.exact && way != l.layout.coats {
			continue
		}
		set[0], set[1] = l.setCoat(said[0], a.w, room, way), l.setCoat(said[1], a.w, room, way)
		if set[0].err == nil && set[1].err == nil {
			return set, nil
		}
	}
	st := l.layout.name
	if l.layout.exact {
		return set, fmt.Errorf("a name does not fit at %g points", st.pt)
	}
	for ; st.pt >= leastLabel; st.pt -= 0.25 {
		set[0], set[1] = l.runIn(said[0], a.w, st), l.runIn(said[1], a.w, st)
		if set[0].tall+set[1].tall+between*st.mm() <= a.h {
			return set, nil
		}
	}
	long := said[0].name
	if set[1].tall > set[0].tall {
		long = said[1].name
	}
	return set, fmt.Errorf("%s does not fit in %.0f × %.0f mm at %g points, the smallest that reads", quoted(long), a.w, room, leastLabel)
}

// setCoat sets a coat beside or below its lead in w × h mm, the height counted
// down to the last baseline.
func (l *labeler) setCoat(c coat, w, h float64, way coatWay) setCoat {
	if c.lead == "" {
		way = beside
	}
	key := setKey{c, w, h, way}
	if s, ok := l.names[key]; ok {
		return s
	}
	s := setCoat{coat: c, leadStyle: l.layout.name.heavy(), way: way}
	tail := descent * l.layout.name.mm() // a block's own box counts its descenders
	if way == beside {
		w -= l.nameAt(s.leadStyle, c.lead)
		s.set, s.err = l.fitLine(c.name, l.layout.name, w, l.leastName())
		s.tall = s.leadStyle.capHeight()
	} else {
		for ; s.leadStyle.pt > leastLabel && l.width(s.leadStyle, c.lead) > w; s.leadStyle.pt -= 0.25 {
		}
		s.set, s.err = l.fit(c.name, l.layout.name, w, h-s.leadStyle.leading()+tail, leastLabel)
		s.tall = s.leadStyle.leading() + s.set.tall() - descent*s.set.mm()
	}
	if s.err == nil && l.layout.exact && (s.set.pt < l.layout.name.pt || s.leadStyle.pt < l.layout.name.pt) {
		s.err = fmt.Errorf("%q is too wide at %g points", c.name, l.layout.name.pt)
	}
	if s.err == nil && s.tall > h {
		s.err = fmt.Errorf("%q is too tall", c.name)
	}
	l.names[key] = s
	return s
}

// leastName is how small a name beside its lead may get.
func (l *labeler) leastName() float64 {
	if l.layout.exact {
		return l.layout.name.pt
	}
	return 0.75 * l.layout.name.pt
}

// fitLine sets s on one line of w mm, not smaller than least points.
func (p *paper) fitLine(s string, st style, w, least float64) (block, error) {
	b, ok := p.onOneLine(s, st, w)
	if !ok || b.pt < least {
		return b, fmt.Errorf("%s does not fit on a line of %.0f mm", quoted(s), w)
	}
	return b, nil
}

// runIn sets a name on from its lead and around it, breaking a word where
// nothing else helps.
func (l *labeler) runIn(c coat, w float64, st style) setCoat {
	s := setCoat{coat: c, leadStyle: st.heavy(), way: runIn}
	indent := l.nameAt(s.leadStyle, c.lead)
	lines := l.wrapAfter(indent, c.name, st, w, st.pt < leastLabel+0.25)
	if len(lines) == 0 {
		lines = []string{""} // a name of nothing that prints
	}
	s.set = l.set(st, lines)
	s.tall = st.capHeight() + float64(len(s.set.lines)-1)*st.leading()
	if indent > w*0.8 || s.set.wide > w || indent+l.width(st, s.set.lines[0]) > w {
		s.tall = math.Inf(1)
	}
	return s
}

// nameAt is how far from a lead's left end the name after it begins.
func (l *labeler) nameAt(st style, lead string) float64 {
	if lead == "" {
		return 0
	}
	return l.width(st, lead+" ") + 0.25*st.mm()
}

// printCoats prints both coats in the foot of an area, the last baseline on
// its lower edge.
func (l *labeler) printCoats(a area, set [2]setCoat) {
	gap := min(2*between*l.layout.name.mm(), a.h-set[0].tall-set[1].tall)
	l.printCoat(a.x, a.y+a.h-set[1].tall-gap-set[0].tall, set[0])
	l.printCoat(a.x, a.y+a.h-set[1].tall, set[1])
}

// printCoat prints a set coat with its cap line at y.
func (l *labeler) printCoat(x, y float64, s setCoat) {
	l.text(x, y+s.leadStyle.capHeight(), s.leadStyle, s.lead)
	at := x + l.nameAt(s.leadStyle, s.lead)
	switch s.way {
	case below:
		l.block(x, y+s.leadStyle.leading(), s.set)
	case beside:
		l.block(at, y+s.leadStyle.capHeight()-s.set.capHeight(), s.set)
	case runIn:
		for i, line := range s.set.lines {
			if i > 0 {
				at = x
			}
			l.text(at, y+s.leadStyle.capHeight()+float64(i)*s.set.leading(), s.set.style, line)
		}
	}
}
