package chart

import (
	"fmt"
	"math"
	"strings"
)

// Panel is one square of guessed against measured: X was guessed, Y came out.
type Panel struct {
	Name   string
	Points []Point
}

// Point is one thing guessed and measured; Far says that it came out further
// off than was said.
type Point struct {
	X, Y float64
	Far  bool
}

// Against draws what was guessed against what came out, a square a panel, side
// by side, across as guessed and upwards as measured: on the slanting line a
// guess was right. Rings are far off.
func Against(title string, panels []Panel) Drawing {
	const gap = 14.0
	side := (width - gap*float64(len(panels))) / float64(max(1, len(panels)))
	d := Drawing{Width: width, Height: text + 6 + side + 2*small + 8, Title: title}
	d.words(0, text, text, Start, true, title)
	var said []string
	for i, p := range panels {
		left := gap*float64(i+1) + side*float64(i)
		d.panel(p, plot{left: left, right: left + side, top: text + 6, bottom: text + 6 + side})
		far := 0
		for _, q := range p.Points {
			if q.Far {
				far++
			}
		}
		said = append(said, fmt.Sprintf("%s: %d guessed and measured, %d of them far off.", p.Name, len(p.Points), far))
	}
	d.Words = strings.Join(said, " ")
	return d
}

func (d *Drawing) panel(p Panel, at plot) {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range p.Points {
		low, high = min(low, q.X, q.Y), max(high, q.X, q.Y)
	}
	if low > high {
		low, high = 0, 100
	}
	low, high = low-2, high+2
	x := func(v float64) float64 { return at.left + (v-low)/(high-low)*(at.right-at.left) }
	y := func(v float64) float64 { return at.bottom - (v-low)/(high-low)*(at.bottom-at.top) }
	values, decimals := ticks(low, high, 4)
	for _, v := range values {
		d.faint(x(v), at.top, x(v), at.bottom)
		d.faint(at.left, y(v), at.right, y(v))
		d.words(x(v), at.bottom+1+small, small, Middle, false, figure(v, decimals))
		d.words(at.left-1, y(v)+small*0.35, small, End, false, figure(v, decimals))
	}
	d.line(at.left, at.bottom, at.right, at.top, thin)
	for _, q := range p.Points {
		d.dot(x(q.X), y(q.Y), dot*0.8)
		if q.Far {
			d.ring(x(q.X), y(q.Y))
		}
	}
	d.words((at.left+at.right)/2, at.bottom+2+2*small, small, Middle, false, p.Name)
}
