package demo

import "github.com/twodip/twodip/tiles/color"

// rgb is linear sRGB light, 0–1.
type rgb struct{ r, g, b float32 }

var toSRGB = color.SRGBToXYZ.Inverse()

// light is the color as linear sRGB, cut to what a screen can show.
func light(c color.Lab) rgb {
	xyz := c.XYZ()
	r, g, b := toSRGB.Times(xyz.X, xyz.Y, xyz.Z)
	return rgb{clamp(float32(r), 0.002, 1), clamp(float32(g), 0.002, 1), clamp(float32(b), 0.002, 1)}
}

// labOf is the color of linear sRGB light.
func labOf(r, g, b float64) color.Lab {
	x, y, z := color.SRGBToXYZ.Times(r, g, b)
	return color.XYZ{X: x, Y: y, Z: z}.Lab()
}

// mix goes from a to b by t.
func mix(a, b rgb, t float32) rgb {
	return rgb{a.r + (b.r-a.r)*t, a.g + (b.g-a.g)*t, a.b + (b.b-a.b)*t}
}

// times dims or brightens.
func (c rgb) times(k float32) rgb { return rgb{c.r * k, c.g * k, c.b * k} }

// through is light that passes a colored glass twice.
func (c rgb) through(glass rgb) rgb { return rgb{c.r * glass.r, c.g * glass.g, c.b * glass.b} }

// encoded is the sRGB byte of linear light in steps of 1/4095.
var encoded = func() (table [4096]uint8) {
	for i := range table {
		table[i] = uint8(color.Encoded(float64(i)/4095)*255 + 0.5)
	}
	return table
}()

func encode(v float32) uint8 { return encoded[int(clamp(v, 0, 1)*4095)] }
