package color

// Matrix takes a column of three to a column of three; rows first.
type Matrix [3][3]float64

// Times is the matrix applied to (x, y, z).
func (m *Matrix) Times(x, y, z float64) (float64, float64, float64) {
	return m[0][0]*x + m[0][1]*y + m[0][2]*z,
		m[1][0]*x + m[1][1]*y + m[1][2]*z,
		m[2][0]*x + m[2][1]*y + m[2][2]*z
}

// After is the matrix that applies first and then m.
func (m *Matrix) After(first *Matrix) Matrix {
	var out Matrix
	for r := range 3 {
		for c := range 3 {
			for k := range 3 {
				out[r][c] += m[r][k] * first[k][c]
			}
		}
	}
	return out
}

// Inverse is the matrix that undoes m, by cofactors; m must not be singular.
func (m *Matrix) Inverse() Matrix {
	minor := func(r, c int) float64 {
		r1, r2, c1, c2 := (r+1)%3, (r+2)%3, (c+1)%3, (c+2)%3
		return m[r1][c1]*m[r2][c2] - m[r1][c2]*m[r2][c1]
	}
	det := m[0][0]*minor(0, 0) + m[0][1]*minor(0, 1) + m[0][2]*minor(0, 2)
	var out Matrix
	for r := range 3 {
		for c := range 3 {
			out[c][r] = minor(r, c) / det
		}
	}
	return out
}

// bradford turns XYZ into the sharpened cone responses in which white is
// scaled. Source: ICC.1:2022, annex E.3 (the linear Bradford transform).
var bradford = Matrix{
	{0.8951, 0.2664, -0.1614},
	{-0.7502, 1.7135, 0.0367},
	{0.0389, -0.0685, 1.0296},
}

// Adaptation is the Bradford matrix that takes XYZ seen under the white from
// to the XYZ that looks the same under the white to. Source: ICC.1:2022,
// annex E.3.
func Adaptation(from, to XYZ) Matrix {
	fr, fg, fb := bradford.Times(from.X, from.Y, from.Z)
	tr, tg, tb := bradford.Times(to.X, to.Y, to.Z)
	scale := Matrix{{tr / fr, 0, 0}, {0, tg / fg, 0}, {0, 0, tb / fb}}
	scaled := scale.After(&bradford)
	back := bradford.Inverse()
	return back.After(&scaled)
}

// WhiteXYZ is the XYZ of a white given by its CIE 1931 chromaticity, Y = 1.
func WhiteXYZ(x, y float64) XYZ { return XYZ{x / y, 1, (1 - x - y) / y} }

// RGBToXYZ is the matrix from an RGB space's linear light, 0–1, to XYZ D50,
// from its primaries and white as chromaticities x, y. Source: SMPTE RP
// 177:1993, then Bradford to D50.
func RGBToXYZ(primaries [3][2]float64, white [2]float64) Matrix {
	var columns Matrix
	for i, p := range primaries {
		c := WhiteXYZ(p[0], p[1])
		columns[0][i], columns[1][i], columns[2][i] = c.X, c.Y, c.Z
	}
	w := WhiteXYZ(white[0], white[1])
	inverse := columns.Inverse()
	r, g, b := inverse.Times(w.X, w.Y, w.Z)
	scale := Matrix{{r, 0, 0}, {0, g, 0}, {0, 0, b}}
	native := columns.After(&scale)
	adapt := Adaptation(w, D50)
	return adapt.After(&native)
}
