package measure

import (
	"cmp"
	"math"
	"slices"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/color/mottle"
)

// orGlaze is the doubt of a color, ΔE00, where a part of the zone may be glare or a
// light part of the glaze: how far apart the colors without it and with it are, the
// more the less sure it is which.
func (s *sample) orGlaze(by *correct.Correction) float64 {
	k := s.shine.counts
	if k <= 0 || k >= 1 {
		return 0
	}
	var clean, all correct.RGB
	rest := s.kept - k*s.shine.blocks
	if rest <= 0 {
		return 0
	}
	for c := range clean {
		sum := 0.0
		for i := range s.light {
			sum += s.light[i][c]
		}
		clean[c] = (sum - k*s.shine.light[c]) / rest
		all[c] = (sum + (1-k)*s.shine.light[c]) / (rest + s.shine.blocks)
	}
	apart := color.DE00(by.XYZ(clean).Lab(), by.XYZ(all).Lab())
	return 2 * math.Sqrt(k*(1-k)) * apart // two standard deviations of one or the other
}

// Bounds on a shine that lies over most of a tile, by judgement.
const (
	shineGrid      = 4    // parts a side into which a zone is cut
	shineRegion    = 5    // cells at least in such a part
	shineSaid      = 4.0  // ΔE00 of doubt from which it is said
	shineOnColor   = 1.3  // of the lightest part's light over the darkest's, from which it is looked at,
	shineOnGrey    = 2.2  // on a grey, whose own color does not tell shine from light that falls off,
	shineOnLeveled = 1.6  // and on a grey where the light was leveled
	shineBelow     = 2.4  // how much further off the color without shine may be than the darkest part, which has some too
	shineSteep     = 0.6  // of the way from the darkest part to the lightest, the largest step from part to part: more is two things, and no shine
	leastShine     = 4.0  // ΔE00 from the darkest part, under which it is the glaze's own change
	mostShine      = 25.0 // ΔE00
	shineColored   = 0.5  // how much nearer to white light than to the glaze's own color what is added must be
)

// softShine looks whether light of the lamp's own color lies over a part of a zone
// and falls off smoothly: between its parts then changes a light that is white,
// where a glaze that pools or light that falls off changes all its colors by one
// share. The color without it may be further off than that of the darkest part: so
// much is doubted, ΔE00; 0 = no shine is seen. leveled says that paper told how the
// light falls.
func softShine(mean color.Lab, cells mottle.Area, leveled bool) float64 {
	p := part(cells)
	parts := p.sorted()
	if len(parts) < shineGrid*shineGrid/2 {
		return 0
	}
	n := len(parts)
	dark, light := average(parts[:n/4]), average(parts[n-n/4:])
	apart := color.DE00(mean, dark.Lab())
	added := dark
	added.X, added.Y, added.Z = light.X-dark.X, light.Y-dark.Y, light.Z-dark.Z
	if !(dark.Y > 0 && added.Y > 0) || apart < leastShine || light.Y < shineOnColor*dark.Y ||
		p.steepest() > shineSteep*(parts[n-1].Lab().L-parts[0].Lab().L) {
		return 0
	}
	own, white := tintApart(added, dark), tintApart(added, color.XYZ{X: color.D50.X, Y: 1, Z: color.D50.Z})
	grey, onGrey := dark.Lab().Chroma() < glareChromaMax, shineOnGrey
	if leveled {
		onGrey = shineOnLeveled
	}
	if !grey && white < shineColored*own || grey && white < whiteTint && light.Y > onGrey*dark.Y {
		return min(shineBelow*apart, mostShine)
	}
	return 0
}

// whiteTint is how far from white, as shares of X and Z, what is added to a grey may
// be and still be taken for shine.
const whiteTint = 0.15

// tintApart is how far two lights' shares of X and Z to Y lie apart, white being 1.
func tintApart(a, b color.XYZ) float64 {
	return math.Hypot((a.X/a.Y-b.X/b.Y)/color.D50.X, (a.Z/a.Y-b.Z/b.Y)/color.D50.Z)
}

// parted is a zone cut into a few parts, the mean color of each.
type parted struct {
	color [shineGrid][shineGrid]color.XYZ
	count [shineGrid][shineGrid]float64 // cells in it
}

func part(cells mottle.Area) (p parted) {
	if cells.Width == 0 {
		return p
	}
	height := max(1, len(cells.Cells)/cells.Width)
	for i, c := range cells.Cells {
		if c.Y < 0 {
			continue
		}
		x, y := i%cells.Width*shineGrid/cells.Width, min(i/cells.Width*shineGrid/height, shineGrid-1)
		n := p.count[y][x]
		s := &p.color[y][x]
		s.X, s.Y, s.Z = (s.X*n+c.X)/(n+1), (s.Y*n+c.Y)/(n+1), (s.Z*n+c.Z)/(n+1)
		p.count[y][x]++
	}
	return p
}

// sorted is the parts of use, the darkest first.
func (p *parted) sorted() (out []color.XYZ) {
	for y := range p.count {
		for x, n := range p.count[y] {
			if n >= shineRegion {
				out = append(out, p.color[y][x])
			}
		}
	}
	slices.SortFunc(out, func(a, b color.XYZ) int { return cmp.Compare(a.Y, b.Y) })
	return out
}

// steepest is the largest step of L* from a part to the one beside or below it.
func (p *parted) steepest() (most float64) {
	l := func(x, y int) float64 { return p.color[y][x].Lab().L }
	for y := range p.count {
		for x, n := range p.count[y] {
			if n < shineRegion {
				continue
			}
			if x+1 < shineGrid && p.count[y][x+1] >= shineRegion {
				most = max(most, math.Abs(l(x, y)-l(x+1, y)))
			}
			if y+1 < shineGrid && p.count[y+1][x] >= shineRegion {
				most = max(most, math.Abs(l(x, y)-l(x, y+1)))
			}
		}
	}
	return most
}

func average(list []color.XYZ) (out color.XYZ) {
	n := float64(len(list))
	for _, c := range list {
		out.X, out.Y, out.Z = out.X+c.X/n, out.Y+c.Y/n, out.Z+c.Z/n
	}
	return out
}
