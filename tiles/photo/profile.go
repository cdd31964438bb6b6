package photo

import (
	"math"

	"github.com/twodip/twodip/tiles/color"
)

// curve1D takes an encoded value, 0–1, to linear light, 0–1.
type curve1D = func(float64) float64

// Profile says what a picture's numbers mean: a curve a channel, then a matrix.
type Profile struct {
	Name    string       // "sRGB", "Display P3", …, or what the profile calls itself
	Assumed bool         // the picture says nothing: it is taken for sRGB
	ToXYZ   color.Matrix // linear light, 0–1 a channel, to XYZ D50
	curve   [3]curve1D
}

// String is the name for people: "sRGB assumed" where nothing was said.
func (p *Profile) String() string {
	if p.Assumed {
		return p.Name + " assumed"
	}
	return p.Name
}

// XYZ is the color of linear light of the picture.
func (p *Profile) XYZ(r, g, b float64) color.XYZ {
	x, y, z := p.ToXYZ.Times(r, g, b)
	return color.XYZ{X: x, Y: y, Z: z}
}

// Table is linear light by code value, a table a channel, for codes from 0 to top.
func (p *Profile) Table(top int) *[3][]float32 {
	var t [3][]float32
	for c := range t {
		t[c] = make([]float32, top+1)
		for v := range t[c] {
			t[c][v] = float32(p.curve[c](float64(v) / float64(top)))
		}
	}
	return &t
}

// isSRGB says whether converting to sRGB would change nothing to be seen.
func (p *Profile) isSRGB() bool { return p.like(&profileSRGB) }

func (p *Profile) like(q *Profile) bool {
	for i := range p.ToXYZ {
		for j := range p.ToXYZ[i] {
			if math.Abs(p.ToXYZ[i][j]-q.ToXYZ[i][j]) > 0.003 {
				return false
			}
		}
	}
	for c := range p.curve {
		for _, v := range []float64{0.02, 0.1, 0.3, 0.5, 0.75, 1} {
			if math.Abs(p.curve[c](v)-q.curve[c](v)) > 0.004 {
				return false
			}
		}
	}
	return true
}

var profileSRGB = Profile{
	Name:  "sRGB",
	ToXYZ: color.SRGBToXYZ,
	curve: [3]curve1D{color.Linear, color.Linear, color.Linear},
}

// wellKnown are spaces said by their usual name whatever a profile calls
// itself. Sources: IEC 61966-2-1; SMPTE EG 432-1 primaries with D65 and the
// sRGB curve; Adobe RGB (1998), 4.3; ISO 22028-2 (ROMM RGB).
var wellKnown = []Profile{
	profileSRGB,
	{"Display P3", false, color.RGBToXYZ(knownPrimaries[12].xy, whiteD65), profileSRGB.curve},
	uniform("Adobe RGB", [3][2]float64{{0.64, 0.33}, {0.21, 0.71}, {0.15, 0.06}}, whiteD65, power(563./256)),
	uniform("ProPhoto RGB", [3][2]float64{{0.7347, 0.2653}, {0.1596, 0.8404}, {0.0366, 0.0001}},
		[2]float64{0.3457, 0.3585}, linearROMM),
}

func uniform(name string, xy [3][2]float64, white [2]float64, c curve1D) Profile {
	return Profile{Name: name, ToXYZ: color.RGBToXYZ(xy, white), curve: [3]curve1D{c, c, c}}
}

// linearROMM is the inverse of the encoding of ISO 22028-2, with its straight part.
func linearROMM(v float64) float64 {
	if v < 16./512 {
		return v / 16
	}
	return math.Pow(v, 1.8)
}

// usualName replaces a profile's own name where it is one of the well known.
func (p *Profile) usualName() {
	for i := range wellKnown {
		if p.like(&wellKnown[i]) {
			p.Name = wellKnown[i].Name
			return
		}
	}
}
