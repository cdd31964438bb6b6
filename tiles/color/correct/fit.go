package correct

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"

	"github.com/twodip/twodip/tiles/color"
)

// fit holds what every fit to the same photo shares.
type fit struct {
	space, back color.Matrix // file's light ↔ XYZ D50
}

func newFit(_ []Seen, space color.Matrix) *fit {
	return &fit{space: space, back: space.Inverse()}
}

// truth is a patch's true color as light of the photo's space.
func (f *fit) truth(p color.Lab) (out RGB) {
	c := p.XYZ()
	out[0], out[1], out[2] = f.back.Times(c.X, c.Y, c.Z)
	return out
}

// ridge pulls the root-polynomial towards leaving the light as it is.
var ridge = 0.01

func (f *fit) solve(seen []Seen) (*Correction, error) {
	c := None(f.space)
	c.curves = f.tone(seen)
	c.kind, c.said = Grey, "grey card"
	colored := 0
	for _, s := range seen {
		if !s.Neutral {
			colored++
		}
	}
	if n := len(seen) - colored; n > 1 {
		c.said = fmt.Sprintf("%d greys", n)
	}
	if colored > 0 {
		c.kind, c.said = Chart, fmt.Sprintf("%d patches", len(seen))
		if err := f.mix(c, seen); err != nil {
			return nil, err
		}
	}
	return c, nil
}

func (f *fit) tone(seen []Seen) (out [3]curve) {
	var neutrals []Seen
	for _, s := range seen {
		if s.Neutral {
			neutrals = append(neutrals, s)
		}
	}
	if len(neutrals) == 0 {
		neutrals = seen
	}
	for k := range out {
		var knots []knot
		for _, s := range neutrals {
			knots = append(knots, knot{s.RGB[k], f.truth(s.Lab)[k]})
		}
		if len(neutrals) == 1 || !neutrals[0].Neutral {
			out[k] = straight(scaleOf(knots))
		} else {
			out[k] = through(knots)
		}
	}
	return out
}

var weightPower = 2.0 / 3

func (f *fit) mix(c *Correction, seen []Seen) error {
	n := len(seen)
	a := mat.NewDense(n+terms, terms, nil)
	b := mat.NewDense(n+terms, 3, nil)
	for i, s := range seen {
		rgb := s.RGB
		for k := range rgb {
			rgb[k] = c.curves[k].at(rgb[k])
		}
		want := f.truth(s.Lab)
		w := math.Pow(s.Lab.XYZ().Y+0.01, -weightPower)
		for j, v := range termsOf(rgb) {
			a.Set(i, j, w*v)
		}
		for k, v := range want {
			b.Set(i, k, w*v)
		}
	}
	pull := math.Sqrt(ridge * float64(n))
	for j := range terms {
		a.Set(n+j, j, pull)
		for k := range 3 {
			b.Set(n+j, k, pull*identity[k][j])
		}
	}
	var x mat.Dense
	if err := x.Solve(a, b); err != nil {
		return fmt.Errorf("the patches do not tell enough: %w", err)
	}
	for j := range terms {
		for k := range 3 {
			c.roots[k][j] = x.At(j, k)
		}
	}
	return nil
}

// cameraDoubt is what the camera's own white balance leaves.
const cameraDoubt = 9.4
