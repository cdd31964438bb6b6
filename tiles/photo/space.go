package photo

import "github.com/twodip/twodip/tiles/color"

// space is what a file says of its colors, before it is made a Profile.
type space struct {
	icc    []byte
	badICC bool // a profile is there but in pieces
	cicp   *cicp
	srgb   bool       // PNG's sRGB chunk
	gamma  float64    // PNG's gAMA; 0 = not said
	chroma [8]float64 // PNG's cHRM: white, red, green, blue as x, y; 0 = not said
}

// profile chooses, in the order of the PNG specification (third edition, 4.3):
// code points, embedded profile, sRGB, gamma with primaries; nothing is sRGB
// assumed. The note says what had to be left aside.
func (s space) profile(gray bool) (p Profile, note string, err error) {
	if s.cicp != nil && s.icc == nil {
		if p, ok, err := s.cicp.profile(); ok || err != nil {
			return p, "", err
		}
	}
	if s.icc != nil {
		return readICC(s.icc, gray)
	}
	if s.badICC {
		note = "its color profile is damaged, so sRGB is assumed"
	}
	switch {
	case s.srgb:
		return profileSRGB, note, nil
	case s.gamma > 0.01 && s.gamma < 10:
		return s.gammaProfile(), note, nil
	}
	p = profileSRGB
	p.Assumed = true
	return p, note, nil
}

// gammaProfile honors gAMA as the power it says, and cHRM where it is there.
func (s space) gammaProfile() Profile {
	curve := power(1 / s.gamma)
	p := Profile{Name: "PNG gamma", ToXYZ: color.SRGBToXYZ, curve: [3]curve1D{curve, curve, curve}}
	c := s.chroma
	if c[1] > 0 && c[3] > 0 && c[5] > 0 && c[7] > 0 {
		m := color.RGBToXYZ([3][2]float64{{c[2], c[3]}, {c[4], c[5]}, {c[6], c[7]}}, [2]float64{c[0], c[1]})
		if usable(&m) {
			p.ToXYZ = m
		}
	}
	p.usualName()
	return p
}
