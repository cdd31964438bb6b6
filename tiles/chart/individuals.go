package chart

import (
	"fmt"
	"math"
	"strings"

	"github.com/twodip/twodip/tiles/drift/control"
)

// plot is the plane inside the axes.
type plot struct {
	left, right, top, bottom float64
	low, high                float64
}

func (p plot) y(value float64) float64 {
	return p.bottom - (value-p.low)/(p.high-p.low)*(p.bottom-p.top)
}

func (p plot) x(i, n int) float64 {
	if n == 1 {
		return (p.left + p.right) / 2
	}
	inset := (p.right - p.left) * 0.03
	return p.left + inset + (p.right-p.left-2*inset)*float64(i)/float64(n-1)
}

// Individuals draws points in order of time with their mean, their limits and,
// where it is not 0, a target. Points that a rule asks to look at are ringed,
// and the ring says which rule.
func Individuals(title, unit string, c control.Chart, target float64) Drawing {
	d := Drawing{Width: width, Height: 84, Title: title, Words: saw(unit, c)}
	p := plot{left: 17, right: width - 34, top: 14, bottom: 70}
	p.low, p.high = span(c, target)
	d.words(0, text, text, Start, true, title)
	d.scale(p)
	d.limits(p, c, target)
	d.points(p, c)
	return d
}

// span is the range of values that the chart shows, with some air.
func span(c control.Chart, target float64) (low, high float64) {
	values := []float64{c.Mean}
	if c.Sigma > 0 {
		values = append(values, c.Low, c.High)
	}
	if target != 0 {
		values = append(values, target)
	}
	for _, p := range c.Points {
		values = append(values, p.Value)
	}
	low, high = values[0], values[0]
	for _, v := range values {
		low, high = min(low, v), max(high, v)
	}
	air := 0.08 * (high - low)
	if air == 0 && high == 0 {
		air = 1
	} else if air == 0 {
		air = max(0.02*math.Abs(high), 1e-3)
	}
	return low - air, high + air
}

func (d *Drawing) scale(p plot) {
	values, decimals := ticks(p.low, p.high, 5)
	for _, v := range values {
		d.faint(p.left, p.y(v), p.right, p.y(v))
		d.words(p.left-1.5, p.y(v)+small*0.35, small, End, false, figure(v, decimals))
	}
	d.line(p.left, p.top, p.left, p.bottom, thin)
	d.line(p.left, p.bottom, p.right, p.bottom, thin)
}

// limits draws mean, limits and target, each said at its right end; words that
// would touch are moved apart.
func (d *Drawing) limits(p plot, c control.Chart, target float64) {
	_, decimals := ticks(p.low, p.high, 5)
	decimals++
	name := "limit "
	if c.Provisional && c.Tolerance == 0 {
		name = "so far "
	}
	lines := []said{{c.Mean, "mean " + figure(c.Mean, decimals), nil}}
	if c.Tolerance > 0 {
		lines = nil // the target is drawn for it
	}
	if c.Sigma > 0 {
		lines = append(lines, said{c.High, name + figure(c.High, decimals), []float64{2.5, 1.5}}, said{c.Low, name + figure(c.Low, decimals), []float64{2.5, 1.5}})
	}
	if target != 0 {
		lines = append(lines, said{target, "target " + figure(target, decimals), []float64{0.6, 1.4}})
	}
	at := apart(p, lines)
	for i, l := range lines {
		size := thin * 1.6
		if l.dash == nil {
			size = thick * 0.6
		}
		d.line(p.left, p.y(l.value), p.right, p.y(l.value), size, l.dash...)
		d.words(p.right+1.5, at[i]+small*0.35, small, Start, false, l.words)
	}
}

type said struct {
	value float64
	words string
	dash  []float64
}

// apart gives each line's words a height of its own, the highest value first.
func apart(p plot, lines []said) []float64 {
	order := make([]int, len(lines))
	for i := range order {
		order[i] = i
		for k := i; k > 0 && lines[order[k]].value > lines[order[k-1]].value; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	at := make([]float64, len(lines))
	last := math.Inf(-1)
	for _, i := range order {
		at[i] = max(p.y(lines[i].value), last+small*1.15)
		last = at[i]
	}
	return at
}

// mostLabels is how many points are said below the axis.
const mostLabels = 5

func (d *Drawing) points(p plot, c control.Chart) {
	n := len(c.Points)
	every := (n + mostLabels - 1) / mostLabels
	rules := map[int][]string{}
	for _, s := range c.Signals {
		rules[s.At] = append(rules[s.At], string(s.Rule))
	}
	for i, one := range c.Points {
		x, y := p.x(i, n), p.y(one.Value)
		if i > 0 {
			d.line(p.x(i-1, n), p.y(c.Points[i-1].Value), x, y, thin*1.4)
		}
		d.dot(x, y, dot)
		if len(rules[i]) > 0 {
			d.ring(x, y)
		}
		if i%every == 0 {
			d.line(x, p.bottom, x, p.bottom+1.2, thin)
			d.words(x, p.bottom+1.2+small, small, Middle, false, short(one.Label))
		}
	}
	d.words(p.left, d.Height-1.5, small, Start, false, foot(c, rules))
}

// short is a label that fits below its point: what stands before a comma.
func short(label string) string {
	head, _, _ := strings.Cut(label, ",")
	if r := []rune(head); len(r) > 12 {
		return string(r[:11]) + "…"
	}
	return head
}

// foot says, below the chart, what the rings mean.
func foot(c control.Chart, rules map[int][]string) string {
	say := fmt.Sprintf("%d points", len(c.Points))
	switch {
	case c.Tolerance > 0:
		say += fmt.Sprintf(", limits: target ± %g", c.Tolerance)
	case c.Provisional && c.Sigma > 0:
		say += fmt.Sprintf(", limits provisional until %d", control.Enough)
	}
	if n := len(c.Points) - 1; len(rules[n]) > 0 {
		say += "; the last: " + rules[n][0]
	} else if len(rules) > 0 {
		say += "; ringed: look"
	}
	return say
}

// saw says the chart in words.
func saw(unit string, c control.Chart) string {
	if len(c.Points) == 0 {
		return "No points."
	}
	last := c.Points[len(c.Points)-1]
	middle := "mean"
	if c.Tolerance > 0 {
		middle = "target"
	}
	say := fmt.Sprintf("%d points, %s %.2f, limits %.2f to %.2f. The last, %s, is %.2f (%s).", len(c.Points), middle, c.Mean, c.Low, c.High, last.Label, last.Value, unit)
	for _, s := range c.Signals {
		say += fmt.Sprintf(" %s: %s.", c.Points[s.At].Label, s.Rule)
	}
	return say
}
