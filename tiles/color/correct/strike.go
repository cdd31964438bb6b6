package correct

import (
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/color"
)

// strike leaves out, one after the other, patches that disagree with all
// others by far; at most a fifth of them.
func (f *fit) strike(patches []patch) (kept []patch, struck []string) {
	kept = patches
	for range len(patches) / 5 {
		worst := f.worst(kept)
		if worst < 0 {
			break
		}
		struck = append(struck, kept[worst].Name)
		kept = without(kept, worst)
	}
	return kept, struck
}

// worst is the patch without which the others agree best, if it then lies far
// off: 5 ΔE00 at least, and four times what most of the others miss by. -1 is
// none.
//
// To look for the worst miss would not do: glare on a grey bends the curve, and
// then everything else is missed.
func (f *fit) worst(patches []patch) int {
	const ridge, least, times = 10, 5, 4
	best, agreed, off := -1, math.Inf(1), 0.0
	for i, p := range patches {
		rest := without(patches, i)
		c, ok := f.rough(rest, ridge)
		if !ok {
			continue
		}
		if r := trimmedRMS(c.misses(rest)); r < agreed {
			best, agreed, off = i, r, c.miss(p)
		}
	}
	if off > max(least, times*agreed) {
		return best
	}
	return -1
}

// miss is how far, in ΔE00, the correction lands from a patch.
func (c *Correction) miss(p patch) float64 { return color.DE00(c.XYZ(p.RGB).Lab(), p.Lab) }

func (c *Correction) misses(patches []patch) []float64 {
	out := make([]float64, len(patches))
	for i, p := range patches {
		out[i] = c.miss(p)
	}
	return out
}

// most is the root mean square of the nearer four fifths: what most patches
// agree on, whatever a few say.
func trimmedRMS(misses []float64) float64 {
	sorted := slices.Sorted(slices.Values(misses))
	return rms(sorted[:len(sorted)-len(sorted)/5])
}
