package foresee

import "github.com/twodip/twodip/tiles/color"

// A share says how well a glaze covers, in steps of 0.04 from 0, clear, to 1.
const (
	shares = 26
	clear  = 0
	opaque = shares - 1
)

func shareOf(step int) float64 { return float64(step) / opaque }

// A pair that came out quite otherwise says little about covering: its cost is
// bounded at this ΔE*ab, squared.
const surprise = 15.0 * 15.0

// The whole wall's mean cost counts as so many pairs of each glaze: a glaze
// with few tiles leans on the others.
const leaning = 2

// rule lays the glaze second, covering to a share, over first.
type rule func(first, second int, share float64) color.Lab

// cover is a rule fitted to what was fired: how well each glaze covers.
type cover struct {
	rule rule
	s    Studio
	at   [][shares]color.Lab // m: what the rule makes of each fired pair
	cost [][shares]float64   // m: how far that is from what came out, ΔE*ab², bounded
	sum  [][shares]float64   // n: the cost of each glaze as second
	all  [shares]float64     // the cost of all
	best []int               // n: the step of least cost

	bySecond [][]int // n: the fired pairs of each glaze as second
}

func fitCover(s Studio, r rule) *cover {
	c := &cover{rule: r, s: s,
		at:   make([][shares]color.Lab, len(s.Pairs)),
		cost: make([][shares]float64, len(s.Pairs)),
		sum:  make([][shares]float64, len(s.Singles)),
		best: make([]int, len(s.Singles)),

		bySecond: make([][]int, len(s.Singles)),
	}
	for k, p := range s.Pairs {
		c.bySecond[p.Second] = append(c.bySecond[p.Second], k)
		for w := range shares {
			c.at[k][w] = r(p.First, p.Second, shareOf(w))
			c.cost[k][w] = min(square(c.at[k][w], p.Lab), surprise)
			c.sum[p.Second][w] += c.cost[k][w]
			c.all[w] += c.cost[k][w]
		}
	}
	for j := range c.best {
		c.best[j] = c.choose(j, nil)
	}
	return c
}

// choose is the step at which glaze j costs least when some fired pairs are
// left out.
func (c *cover) choose(j int, out []int) int {
	best, least := opaque, 0.0
	rest := float64(max(1, len(c.s.Pairs)-len(out)))
	for w := opaque; w >= clear; w-- { // of equals the better covering
		mine, all := c.sum[j][w], c.all[w]
		for _, k := range out {
			all -= c.cost[k][w]
			if c.s.Pairs[k].Second == j {
				mine -= c.cost[k][w]
			}
		}
		if cost := mine + leaning*all/rest; w == opaque || cost < least {
			best, least = w, cost
		}
	}
	return best
}

// total is the cost of all glazes, each at its best.
func (c *cover) total() float64 {
	sum := 0.0
	for j, w := range c.best {
		sum += c.sum[j][w]
	}
	return sum
}

// of is what the rule makes of any pair.
func (c *cover) of(first, second int) color.Lab {
	return c.rule(first, second, shareOf(c.best[second]))
}

// left is what the rule leaves over of each fired pair: what came out less
// what it makes of it.
func (c *cover) left() []axes {
	y := make([]axes, len(c.s.Pairs))
	for k, p := range c.s.Pairs {
		y[k] = axesOf(p.Lab).less(axesOf(c.at[k][c.best[p.Second]]))
	}
	return y
}

// mixing is the rule that knows nothing of light: the color lies between the
// two singles, in CIELAB.
func mixing(s Studio) rule {
	return func(first, second int, share float64) color.Lab {
		return between(s.Singles[first], s.Singles[second], share)
	}
}

// The clay under all glazes is not measured; its lightness is tried in steps,
// its tint is that of a buff stoneware (common practice, no source).
const (
	clayFrom, clayTo, clayStep = 50, 90, 4
	clayA, clayB               = 3, 10
)

// fitLayers fits the rule of layers that scatter and absorb, over the clay that
// explains what was fired at the least cost.
func fitLayers(s Studio) (c *cover, clay color.Lab) {
	singles := lightsOf(s.Singles)
	for l := clayFrom; l <= clayTo; l += clayStep {
		try := clayAt(float64(l))
		fit := fitCover(s, layering(singles, lightOf(try)))
		if c == nil || fit.total() < c.total() {
			c, clay = fit, try
		}
	}
	return c, clay
}

func clayAt(l float64) color.Lab { return color.Lab{L: l, A: clayA, B: clayB} }

func layering(singles []light, clay light) rule {
	return func(first, second int, share float64) color.Lab {
		return lay(singles[second], clay, singles[first], share).lab()
	}
}

// square is ΔE*ab², the squared distance in CIELAB.
func square(p, q color.Lab) float64 {
	l, a, b := p.L-q.L, p.A-q.A, p.B-q.B
	return l*l + a*a + b*b
}

// between is the color a share of the way from p to q.
func between(p, q color.Lab, share float64) color.Lab {
	return color.Lab{L: p.L + share*(q.L-p.L), A: p.A + share*(q.A-p.A), B: p.B + share*(q.B-p.B)}
}
