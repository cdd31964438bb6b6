package photo

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"unicode"

	"github.com/kovidgoyal/imaging/prism/meta/icc"

	"github.com/twodip/twodip/tiles/color"
)

// readICC makes an embedded profile a Profile (ICC.1:2022). A damaged one, or
// one for other channels than the picture has, is left aside with a note; one
// that is a table instead of curves and a matrix is refused, because a mean in
// linear light cannot be taken through it.
func readICC(data []byte, gray bool) (p Profile, note string, err error) {
	defer func() {
		if r := recover(); r != nil {
			p, note, err = setAside("is damaged")
		}
	}()
	if !soundICC(data) {
		return setAside("is damaged")
	}
	read, err := icc.DecodeProfile(bytes.NewReader(data))
	if err != nil {
		return setAside("is damaged")
	}
	channels := 3
	switch read.Header.DataColorSpace {
	case icc.ColorSpaceGray:
		if !gray {
			return setAside("is for grey pictures")
		}
		channels = 1
	case icc.ColorSpaceRGB:
	default:
		return setAside("is not for red, green and blue")
	}
	return separate(read, channels)
}

// separate takes the profile apart into curves and a matrix, by asking the
// library for single colors, and compares the two on mixed ones.
func separate(read *icc.Profile, channels int) (Profile, string, error) {
	pipe, err := read.CreateTransformerToPCS(icc.RelativeColorimetricRenderingIntent, channels, true)
	if err != nil {
		return setAside("is damaged")
	}
	ask := asker(read, pipe, channels)
	p := Profile{Name: iccName(read), ToXYZ: color.SRGBToXYZ}
	if channels == 1 {
		gray := func(v float64) float64 { return ask(v, 0, 0)[1] }
		p.curve = [3]curve1D{gray, gray, gray}
	} else {
		p.takeApart(ask)
		if !p.agrees(ask) {
			return Profile{}, "", refuse(doExport, "its color profile %q works by a table, not by curves and a matrix", p.Name)
		}
	}
	if !usable(&p.ToXYZ) || !p.plausibleWhite() {
		return setAside("is damaged")
	}
	p.usualName()
	return p, "", nil
}

type askFunc = func(r, g, b float64) [3]float64

// asker returns the profile as a function from 0–1 a channel to XYZ D50.
func asker(read *icc.Profile, pipe *icc.Pipeline, channels int) askFunc {
	isLab := read.Header.ProfileConnectionSpace == icc.ColorSpaceLab
	return func(r, g, b float64) [3]float64 {
		in, out := [4]float64{r, g, b}, [4]float64{}
		if channels == 1 {
			pipe.TransformGeneral(out[:], in[:])
		} else {
			out[0], out[1], out[2] = pipe.Transform(r, g, b)
		}
		if isLab {
			c := color.Lab{L: out[0], A: out[1], B: out[2]}.XYZ()
			return [3]float64{c.X, c.Y, c.Z}
		}
		return [3]float64{out[0] * whiteScale[0], out[1] * whiteScale[1], out[2] * whiteScale[2]}
	}
}

// whiteScale takes XYZ relative to D50 as ICC.1 rounds it to the D50 of package
// color: Lab stays what the profile means, and a perfect grey stays grey.
var whiteScale = [3]float64{color.D50.X / 0.9642, color.D50.Y, color.D50.Z / 0.8249}

// takeApart reads a column of the matrix from each full channel, and the
// channel's curve from its share of that column.
func (p *Profile) takeApart(ask askFunc) {
	black := ask(0, 0, 0)
	for c := range 3 {
		full := ask(unit(c, 1))
		var norm float64
		for i := range 3 {
			full[i] -= black[i]
			norm += full[i] * full[i]
			p.ToXYZ[i][c] = full[i]
		}
		p.curve[c] = func(v float64) float64 {
			at := ask(unit(c, v))
			var along float64
			for i := range 3 {
				along += (at[i] - black[i]) * full[i]
			}
			return along / norm
		}
	}
}

func unit(channel int, v float64) (r, g, b float64) {
	switch channel {
	case 0:
		return v, 0, 0
	case 1:
		return 0, v, 0
	}
	return 0, 0, v
}

// agrees says whether curves and matrix give what the profile itself gives.
func (p *Profile) agrees(ask askFunc) bool {
	for _, v := range [][3]float64{{0, 0, 0}, {1, 1, 1}, {.5, .5, .5}, {.2, .6, .4}, {.8, .3, .1}, {.1, .2, .9}} {
		want := ask(v[0], v[1], v[2])
		got := p.XYZ(p.curve[0](v[0]), p.curve[1](v[1]), p.curve[2](v[2]))
		for i, g := range []float64{got.X, got.Y, got.Z} {
			if !(math.Abs(g-want[i]) < 0.002) {
				return false
			}
		}
	}
	return true
}

// plausibleWhite says whether white comes out near the D50 of the connection
// space; a profile that forgot to adapt would tint every reading.
func (p *Profile) plausibleWhite() bool {
	white := p.XYZ(p.curve[0](1), p.curve[1](1), p.curve[2](1)).Lab()
	return math.Abs(white.L-100) < 5 && white.Chroma() < 6
}

// usable says that the matrix holds numbers and can be undone.
func usable(m *color.Matrix) bool {
	det := m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) -
		m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) +
		m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	return math.Abs(det) > 1e-6 && math.Abs(det) < 1e3
}

func setAside(why string) (Profile, string, error) {
	p := profileSRGB
	p.Assumed = true
	return p, fmt.Sprintf("its color profile %s, so sRGB is assumed", why), nil
}

// iccName is what the profile calls itself, fit to be printed in a line.
func iccName(read *icc.Profile) string {
	name, err := read.Description()
	clean := strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return -1
	}, name)
	clean = strings.Join(strings.Fields(strings.ToValidUTF8(clean, "")), " ")
	if err != nil || clean == "" {
		return "unnamed profile"
	}
	if short := []rune(clean); len(short) > 60 {
		clean = string(short[:60])
	}
	return clean
}
