package correct

import (
	"math"
	"slices"
)

// near is what of the light no smooth shape and no straight edge explains, as
// spots show it around them: on a grid across the picture, logarithms.
type near struct {
	log [nearCells + 1][nearCells + 1][3]float64
}

// How what spots show is spread to what lies between them.
const (
	nearCells   = 48   // of the grid, each way
	nearSpots   = 20   // spots it takes, of two sheets
	nearReach   = 0.5  // of the usual way from a spot to the nearest other: the kernel's standard deviation
	nearLeast   = 0.02 // and at least so much of the picture
	nearPrior   = 0.1  // weight of there being nothing; a spot weighs 1 where it is
	nearHelps   = 0.8  // of the mean square left over, what may be left at the most where each spot is told by the others
	nearClipped = 1.2  // a spot's logarithm counts at most so far off: glare or dirt
)

// findNear looks whether neighboring spots have in common what is left over, each
// told by the others, and keeps it where they do: several shadows, a round one,
// light through a window's bars.
func (l *Light) findNear(spots []Spot) {
	if len(spots) < nearSpots || !severalSheets(spots) {
		return
	}
	over := make([][3]float64, len(spots))
	var level RGB
	for i, s := range spots {
		for k, v := range l.even(s) {
			over[i][k] = math.Log(v)
			level[k] += over[i][k] / float64(len(spots))
		}
	}
	for i := range over {
		for k := range level {
			over[i][k] = min(max(over[i][k]-level[k], -nearClipped), nearClipped)
		}
	}
	reach := max(nearLeast, nearReach*usualWay(spots))
	var before, after float64
	for i, s := range spots {
		told := smoothed(spots, over, reach, s.X, s.Y, i)
		before += over[i][1] * over[i][1]
		after += (over[i][1] - told[1]) * (over[i][1] - told[1])
	}
	if after > nearHelps*before {
		return
	}
	l.left = math.Sqrt(after / float64(len(spots)))
	n := &near{}
	for j := range n.log {
		for i := range n.log[j] {
			n.log[j][i] = smoothed(spots, over, reach, float64(i)/nearCells, float64(j)/nearCells, -1)
		}
	}
	l.near = n
}

// smoothed is the kernel-weighted mean of what is left over around a place
// (Nadaraya and Watson), held toward nothing; one spot may be left out.
func smoothed(spots []Spot, over [][3]float64, reach, x, y float64, but int) (out [3]float64) {
	weights := nearPrior
	for i, s := range spots {
		d := ((s.X-x)*(s.X-x) + (s.Y-y)*(s.Y-y)) / (2 * reach * reach)
		if i == but || d > 12 {
			continue
		}
		w := math.Exp(-d)
		weights += w
		for k := range out {
			out[k] += w * over[i][k]
		}
	}
	for k := range out {
		out[k] /= weights
	}
	return out
}

// usualWay is the median way from a spot to the nearest other.
func usualWay(spots []Spot) float64 {
	ways := make([]float64, len(spots))
	for i, s := range spots {
		least := math.Inf(1)
		for j, o := range spots {
			if i != j {
				least = min(least, (s.X-o.X)*(s.X-o.X)+(s.Y-o.Y)*(s.Y-o.Y))
			}
		}
		ways[i] = math.Sqrt(least)
	}
	slices.Sort(ways)
	return ways[len(ways)/2]
}

// at is the logarithm of the light in a channel at a place, between the grid's
// points (bilinear); beside the picture that at its edge.
func (n *near) at(x, y float64, channel int) float64 {
	x, y = min(max(x, 0), 1)*nearCells, min(max(y, 0), 1)*nearCells
	i, j := min(int(x), nearCells-1), min(int(y), nearCells-1)
	fx, fy := x-float64(i), y-float64(j)
	up := n.log[j][i][channel]*(1-fx) + n.log[j][i+1][channel]*fx
	down := n.log[j+1][i][channel]*(1-fx) + n.log[j+1][i+1][channel]*fx
	return up*(1-fy) + down*fy
}
