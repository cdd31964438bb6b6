package sheet

import (
	"fmt"
	"io"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// Materials writes what the tiles still to be made ask for: how many tiles,
// how much clay, and what must stand in each bucket before the first dip.
func Materials(w io.Writer, job Job) (pages int, err error) {
	need := plan.Need(job.Wall)
	if need.Tiles == 0 {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "What to make", "Tiles, clay and glaze for everything that is planned and not fired.", false)
	if err != nil {
		return 0, err
	}
	f := s.flow()
	f.add(40, 40, func(a area) { s.needHead(a, need) })
	s.cutList(f, need)
	f.add(12, 12, func(a area) { s.bucketRow(a, bucketHeads, head.at(10)) })
	for _, b := range need.Buckets {
		f.add(7, 0, func(a area) { s.bucketRow(a, bucketCells(job.Wall.Units, b), text) })
	}
	s.secondWays(f)
	f.add(12, 12, func(a area) { s.text(a.x, a.y+9, head, "Reckoned with") })
	for _, as := range need.Assumed {
		f.add(5.4, 0, func(a area) { s.assumption(a, as) })
	}
	f.turn()
	return s.bind(w)
}

// cutList says every piece of clay to cut: the tile's face, its foot, and the
// waste slabs for under what runs.
func (s *pinned) cutList(f *flow, m plan.Materials) {
	u := s.job.Wall.Units
	t := m.Wet
	n := m.Tiles + m.Spares
	f.heading("Clay to cut", 8)
	rows := [][3]string{{fmt.Sprint(n), "faces", u.Lengths(t.Width, t.Height, t.Thickness)}}
	if foot := t.Foot - t.Thickness; foot > 0 {
		rows = append(rows, [3]string{fmt.Sprint(n), "foot pieces", u.Lengths(t.Width, foot, t.Thickness) + ", scored and slipped onto the back of the face, along its lower edge"})
	}
	if m.Slabs > 0 {
		rows = append(rows, [3]string{fmt.Sprint(m.Slabs), "waste slabs", u.Lengths(m.SlabWet.Width, m.SlabWet.Height, m.SlabWet.Thickness) + ", flat, from any scrap clay of the same cone, with kiln wash on top"})
	}
	for _, r := range rows {
		f.add(5.4, 0, func(a area) {
			s.textRight(a.x+14, a.y+3.6, text.heavy(), r[0])
			s.text(a.x+17, a.y+3.6, text, r[1])
			s.inLine(a.x+45, a.y+3.6, a.w-45, text, r[2])
		})
	}
}

// secondWays compares the ways to put second coats on: what each takes, throws
// away and risks.
func (s *pinned) secondWays(f *flow) {
	u := s.job.Wall.Units
	f.heading("2nd coats: how, and what it costs", 30)
	for _, way := range plan.SecondWays(s.job.Wall) {
		costs := fmt.Sprintf("%s ready, %s thrown away", u.Volume(way.Litres), u.Volume(way.Thrown))
		if way.Kept > 0 {
			costs += ", " + u.Volume(way.Kept) + " kept in jars"
		}
		costs += fmt.Sprintf(", %.0f hours", math.Ceil(way.Minutes/60))
		name := string(way.From)
		if way.Chosen {
			name += ", this wall’s way"
		}
		says := english.Sentence(way.Says) + " " + english.Sentence(way.Risks)
		tall := 5 + s.paraTall(s.body().w-17, small, says) + 1.6
		f.add(tall, 0, func(a area) {
			wide := s.text(a.x, a.y+3.6, text.heavy(), english.Capital(name))
			s.inLine(a.x+wide+4, a.y+3.6, a.w-wide-4, text, costs)
			s.para(a.x+17, a.y+5.2, a.w-17, small, says)
		})
	}
}

// needHead says tiles and clay in large.
func (s *pinned) needHead(a area, m plan.Materials) {
	third := a.w / 3
	u := s.job.Wall.Units
	fired := s.job.Wall.Settings.Tile
	for i, fact := range []struct{ number, words string }{
		{fmt.Sprint(m.Tiles + m.Spares), fmt.Sprintf("tiles: %d planned and %d spare", m.Tiles, m.Spares)},
		{u.Weight(m.Clay), "wet clay, feet, waste slabs and cuttings included"},
		{u.Volume(m.Litres), fmt.Sprintf("of glaze ready; fired tiles are %s", u.Lengths(fired.Width, fired.Height, fired.Thickness))},
	} {
		x := a.x + float64(i)*third
		s.inLine(x, a.y+11, third-4, large, fact.number)
		s.para(x, a.y+14.5, third-4, small, fact.words)
	}
	y := a.y + 25
	s.line(a.x, y, a.x+a.w, y, thin)
	s.caution(area{a.x, y + 4, a.w, 0}, "Weigh and mix dry glaze away from students, with exhaust and a fitted respirator; wipe wet.")
}

// bucketShares are the columns' widths, as shares of the page.
var bucketShares = []float64{0.34, 0.10, 0.14, 0.15, 0.14, 0.13}

var bucketHeads = []string{"glaze", "dips", "used", "in the bucket", "ready", "dry"}

func bucketCells(u tiles.Units, b plan.Bucket) []string {
	if u == tiles.UnitsBoth {
		u = tiles.UnitsUS // a column holds one unit; the other stands in the figures above
	}
	return []string{
		clean(b.Glaze.Code) + "  " + clean(b.Glaze.Name), fmt.Sprint(b.Dips), u.Volume(b.Used),
		u.Volume(b.Fill), u.Volume(b.Litres), u.Weight(b.Dry),
	}
}

// bucketRow prints a row on its lower edge: the glaze at the left, figures
// ending under each other.
func (s *pinned) bucketRow(a area, cells []string, st style) {
	base := a.y + a.h - 2
	x := a.x
	for i, c := range cells {
		wide := bucketShares[i] * a.w
		b, ok := s.onOneLine(c, st, wide-2)
		switch {
		case i == 0 && !ok:
			// A name longer than the column wraps above the line.
			if b, ok := s.fitWords(c, st, wide-2, a.h, leastLabel); ok {
				s.block(x, a.y+0.8, b)
			}
		case i == 0:
			s.text(x, base, b.style, c)
		default:
			s.textRight(x+wide-1, base, b.style, c)
		}
		x += wide
	}
	s.line(a.x, a.y+a.h, a.x+a.w, a.y+a.h, hair)
}

func (s *pinned) assumption(a area, as plan.Assumption) {
	s.text(a.x, a.y+3.6, small, as.What)
	s.text(a.x+a.w*0.36, a.y+3.6, small.heavy(), as.Value)
	s.textRight(a.x+a.w, a.y+3.6, small, as.Setting)
}
