package mark

import (
	"math"

	"github.com/twodip/twodip/tiles/geometry"
)

// symbol is a QR code as it lies on the ground: its size and the middles of its
// finder patterns, top left, top right and bottom left as it is read, mm.
type symbol struct {
	modules int
	corners [3]geometry.Point
	match   float64 // of what all codes of its size have in common, −1 to 1
}

// Codes of 21 to 37 modules, versions 1 to 5, hold all that a label says.
const mostVersion = 5

// at is the middle of the module in a column and a row.
func (s *symbol) at(column, row float64) geometry.Point {
	leg := float64(s.modules - 7)
	right, down := s.corners[1].Minus(s.corners[0]), s.corners[2].Minus(s.corners[0])
	return s.corners[0].Plus(right.Times((column - 3) / leg)).Plus(down.Times((row - 3) / leg))
}

// fixed is what every code of a size has alike (ISO/IEC 18004, 6.3): 1 white, −1
// black, 0 where codes differ. Module x, y of the quiet zone is at −1.
func fixed(modules, x, y int) float64 {
	last := modules - 1
	corner := func(x, y int) float64 {
		switch d := max(away(x-3), away(y-3)); {
		case d > 4:
			return 0
		case d == 2 || d == 4:
			return 1
		}
		return -1
	}
	for _, c := range [3][2]int{{x, y}, {last - x, y}, {x, last - y}} {
		if v := corner(c[0], c[1]); v != 0 {
			return v
		}
	}
	if x < 0 || y < 0 || x > last || y > last {
		return 1
	}
	if d := max(away(x-last+6), away(y-last+6)); modules > 21 && d <= 2 {
		return float64(2*(d%2) - 1)
	}
	if x == 6 || y == 6 {
		return float64(2*((x+y)%2) - 1)
	}
	return 0
}

func away(i int) int { return max(i, -i) }

// lit is the brightness of places on the ground, mm, in a photo.
type lit func(geometry.Point) float64

// likeness is the correlation of the picture with what is fixed.
func (s *symbol) likeness(see lit, known []spot) float64 {
	var c correlation
	for _, k := range known {
		c.add(see(s.at(k.x, k.y)), k.tone)
	}
	return c.value()
}

// spot is a module whose tone is known.
type spot struct{ x, y, tone float64 }

func knownSpots(modules int) (out []spot) {
	for y := -1; y <= modules; y++ {
		for x := -1; x <= modules; x++ {
			if t := fixed(modules, x, y); t != 0 {
				out = append(out, spot{float64(x), float64(y), t})
			}
		}
	}
	return out
}

// settle moves the three corners to where the picture is most like what is
// fixed, by less and less.
func (s *symbol) settle(see lit, known []spot) {
	module := s.corners[1].Distance(s.corners[0]) / float64(s.modules-7)
	s.match = s.likeness(see, known)
	for step := 0.5 * module; step > 0.03*module; {
		better := false
		for i := range s.corners {
			for _, d := range [4]geometry.Point{{X: step}, {X: -step}, {Y: step}, {Y: -step}} {
				try := *s
				try.corners[i] = try.corners[i].Plus(d)
				if try.match = try.likeness(see, known); try.match > s.match {
					*s, better = try, true
				}
			}
		}
		if !better {
			step /= 2
		}
	}
}

// symbols are the QR codes that finder patterns may belong to, settled.
func symbols(found []finder, see lit) (out []symbol) {
	for i, a := range found {
		for j, b := range found {
			for k, c := range found {
				if i == j || i == k || j == k {
					continue
				}
				for _, modules := range sizes(a, b, c) {
					s := symbol{modules: modules, corners: [3]geometry.Point{a.at, b.at, c.at}}
					s.settle(see, knownSpots(modules))
					out = append(out, s)
				}
			}
		}
	}
	return out
}

// sizes are the sizes of code that three finder patterns may belong to, by
// their distance, counted in modules; none where they do not stand square.
func sizes(a, b, c finder) (out []int) {
	right, down := b.at.Minus(a.at), c.at.Minus(a.at)
	x, y := right.Length(), down.Length()
	if right.Cross(down) <= 0.97*x*y || math.Abs(x-y) > 0.1*x {
		return nil
	}
	module := (a.module + b.module + c.module) / 3
	for version := 1; version <= mostVersion; version++ {
		modules := 17 + 4*version
		if r := (x + y) / 2 / float64(modules-7) / module; r > 0.85 && r < 1.18 {
			out = append(out, modules)
		}
	}
	return out
}
