package color

// Patch is one field of a reference: a chart's patch, a grey card, the white of
// a sheet, or a tile whose color is known.
//
// A file of patches is a CSV with the columns patch,l,a,b and, where the
// teacher knows it, neutral; one row a patch, in the order they stand on the
// chart, row by row from the top left. l, a and b are CIELAB under D50, 2°, as
// chart makers print them:
//
//	patch,l,a,b,neutral
//	A1,37.54,14.37,14.92,
//	D1,95.19,-1.03,2.93,yes
type Patch struct {
	Name    string
	Lab     Lab
	Neutral bool // a white, grey or black: the tone curve is taken from these
}

// NeutralChroma is the C*ab below which a patch counts as a white, grey or
// black where its file does not say. Published charts' greys stay below 3.5.
const NeutralChroma = 4.0

// SeemsNeutral says that a color is near enough to grey to take the tone curve
// from.
func (c Lab) SeemsNeutral() bool { return c.Chroma() < NeutralChroma }
