package foresee

import "github.com/twodip/twodip/tiles/color"

// axes are the three of CIELAB, of a color or of a difference of two.
type axes [3]float64

func axesOf(c color.Lab) axes { return axes{c.L, c.A, c.B} }

func (v axes) lab() color.Lab { return color.Lab{L: v[0], A: v[1], B: v[2]} }

func (v axes) plus(u axes) axes { return axes{v[0] + u[0], v[1] + u[1], v[2] + u[2]} }

func (v axes) less(u axes) axes { return axes{v[0] - u[0], v[1] - u[1], v[2] - u[2]} }

func (v axes) times(f float64) axes { return axes{v[0] * f, v[1] * f, v[2] * f} }
