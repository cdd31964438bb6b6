package control

import "math"

// Rule is a reason to look at a point.
type Rule string

// The rules. Only Beyond asks to act; the others, together, give a false
// signal every 92 points on a bucket that never changed, and only ask to look
// (Western Electric, Statistical Quality Control Handbook, 1956; Champ and
// Woodall, Technometrics 29:393, 1987).
const (
	Beyond Rule = "beyond 3 sigma"
	Two    Rule = "2 of 3 beyond 2 sigma, same side"
	Four   Rule = "4 of 5 beyond 1 sigma, same side"
	Eight  Rule = "8 in a row on one side"
	Jump   Rule = "a jump larger than the moving-range limit"
)

// Act says whether the rule asks to act; otherwise it asks to look.
func (r Rule) Act() bool { return r == Beyond }

// Signal is a rule that a point completed.
type Signal struct {
	At   int  `json:"at"` // index of the point
	Rule Rule `json:"rule"`
}

// run is a run rule: so many of the last points beyond so many sigma.
type run struct {
	rule     Rule
	of, last int
	sigma    float64
}

var runs = []run{{Beyond, 1, 1, 3}, {Two, 2, 3, 2}, {Four, 4, 5, 1}, {Eight, 8, 8, 0}}

func (c Chart) signals() []Signal {
	var found []Signal
	for i := range c.Points {
		for _, r := range runs {
			if c.holds(r, i, 1) || c.holds(r, i, -1) {
				found = append(found, Signal{At: i, Rule: r.rule})
			}
		}
		if i > 0 && math.Abs(c.Points[i].Value-c.Points[i-1].Value) > c.RangeHigh {
			found = append(found, Signal{At: i, Rule: Jump})
		}
	}
	return found
}

// holds says whether the rule holds at a point, which is itself one of the
// run, on the side of the mean.
func (c Chart) holds(r run, at int, side float64) bool {
	beyond := func(i int) bool { return side*(c.Points[i].Value-c.Mean) > r.sigma*c.Sigma }
	return beyond(at) && count(max(0, at+1-r.last), at, beyond) >= r.of
}

func count(from, to int, beyond func(int) bool) int {
	n := 0
	for i := from; i <= to; i++ {
		if beyond(i) {
			n++
		}
	}
	return n
}

// Last gives the strongest signal at the newest point.
func (c Chart) Last() (Rule, bool) {
	for _, s := range c.Signals {
		if s.At == len(c.Points)-1 {
			return s.Rule, true
		}
	}
	return "", false
}
