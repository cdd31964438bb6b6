package chart

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles/trace/evidence"
)

// Row is one finding to draw: the share of faulty pieces with and without.
type Row struct {
	Name  string
	Table evidence.Table
}

// Rates draws shares of faulty pieces, each a dot with its 95 % interval, with
// a suspect and without it.
func Rates(title string, rows []Row) Drawing {
	const rowHeight = 23.0
	d := Drawing{Width: width, Height: 12 + rowHeight*float64(len(rows)) + 12, Title: title}
	d.words(0, text, text, Start, true, title)
	p := plot{left: 30, right: width - 42, top: 9, bottom: d.Height - 11}
	for percent := 0; percent <= 100; percent += 25 {
		x := p.share(float64(percent) / 100)
		for i := range rows { // beside the dots only, not through the names
			y := p.top + rowHeight*float64(i) + text + 4
			d.faint(x, y, x, y+rowHeight-9)
		}
		d.words(x, p.bottom+1+small, small, Middle, false, fmt.Sprintf("%d %%", percent))
	}
	var words []string
	for i, r := range rows {
		y := p.top + rowHeight*float64(i) + text + 1
		d.words(0, y, text, Start, true, fit(r.Name, width/(0.54*text)))
		d.rate(p, y+6.5, "with", r.Table.WithFaults, r.Table.With)
		d.rate(p, y+13, "without", r.Table.WithoutFaults, r.Table.Without)
		words = append(words, fmt.Sprintf("%s: %d of %d with, %d of %d without.", r.Name, r.Table.WithFaults, r.Table.With, r.Table.WithoutFaults, r.Table.Without))
	}
	d.Words = strings.Join(words, " ")
	return d
}

func (p plot) share(s float64) float64 { return p.left + s*(p.right-p.left) }

func (d *Drawing) rate(p plot, y float64, side string, faults, pieces int) {
	rate := evidence.Rate(faults, pieces)
	d.words(p.left-4, y+text*0.35, text, End, false, side)
	low, high := p.share(rate.Low), p.share(rate.High)
	d.line(low, y, high, y, thick)
	d.line(low, y-whiskers/2, low, y+whiskers/2, thick)
	d.line(high, y-whiskers/2, high, y+whiskers/2, thick)
	d.dot(p.share(rate.Value), y, dot*1.3)
	d.words(p.right+4, y+text*0.35, text, Start, false, fmt.Sprintf("%d of %d", faults, pieces))
}

// fit cuts a text that is longer than so many letters.
func fit(s string, letters float64) string {
	r := []rune(s)
	if n := int(letters); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
