package sheet

import (
	"fmt"
	"io"

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
	f.add(12, 12, func(a area) { s.bucketRow(a, bucketHeads, head.at(10)) })
	for _, b := range need.Buckets {
		f.add(7, 0, func(a area) { s.bucketRow(a, bucketCells(b), text) })
	}
	if say := cupWords(need, job.Wall); say != "" {
		f.words(text, 0, 2, "")
		f.words(text, 0, 1, say)
	}
	f.add(12, 12, func(a area) { s.text(a.x, a.y+9, head, "Reckoned with") })
	for _, as := range need.Assumed {
		f.add(5.4, 0, func(a area) { s.assumption(a, as) })
	}
	f.turn()
	return s.bind(w)
}

// cupWords says what second-dip cups throw away and, where it is much, what to
// do about it.
func cupWords(m plan.Materials, w tiles.Wall) string {
	if say := m.CupWords(w); say != "" {
		return english.Sentence(say)
	}
	if m.Cups == 0 {
		return ""
	}
	return fmt.Sprintf("%.1f L of it are left in %d second-dip cups and thrown away.", m.Thrown, m.Cups)
}

// needHead says tiles and clay in large.
func (s *pinned) needHead(a area, m plan.Materials) {
	third := a.w / 3
	for i, fact := range []struct{ number, words string }{
		{fmt.Sprint(m.Tiles + m.Spares), fmt.Sprintf("tiles: %d planned and %d spare", m.Tiles, m.Spares)},
		{fmt.Sprintf("%.1f kg", m.Clay), "wet clay, cuttings included"},
		{fmt.Sprintf("%s × %s mm", round(m.Wet.Width), round(m.Wet.Height)), fmt.Sprintf("cut wet, %s mm thick; fired %s × %s", mm1(m.Wet.Thickness), mm(s.job.Wall.Settings.Tile.Width), mm(s.job.Wall.Settings.Tile.Height))},
	} {
		x := a.x + float64(i)*third
		s.text(x, a.y+11, large, fact.number)
		s.para(x, a.y+14.5, third-4, small, fact.words)
	}
	y := a.y + 25
	s.line(a.x, y, a.x+a.w, y, thin)
	s.caution(area{a.x, y + 4, a.w, 0}, "Weigh and mix dry glaze away from students, with exhaust and a fitted respirator; wipe wet.")
}

func round(v float64) string { return fmt.Sprintf("%.0f", v) }
func mm1(v float64) string   { return fmt.Sprintf("%.1f", v) }

// bucketShares are the columns' widths, as shares of the page.
var bucketShares = []float64{0.34, 0.10, 0.14, 0.15, 0.14, 0.13}

var bucketHeads = []string{"glaze", "dips", "used, L", "in the bucket, L", "ready, L", "dry, kg"}

func bucketCells(b plan.Bucket) []string {
	return []string{
		clean(b.Glaze.Code) + "  " + clean(b.Glaze.Name), fmt.Sprint(b.Dips), fmt.Sprintf("%.1f", b.Used),
		fmt.Sprintf("%.1f", b.Fill), fmt.Sprintf("%.1f", b.Litres), fmt.Sprintf("%.1f", b.Dry),
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
