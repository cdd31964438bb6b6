package measure

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/target"
)

// Limits past which a photo by marks is warned about.
const (
	mostTilt     = 40.0 // degrees from straight on
	mostResidual = 4.0  // pixels by which marks miss a flat page
)

// onMat is a photo of one tile on the mat.
func (f *finding) onMat(found []mark.Found) error {
	page, err := target.Mat(f.ask.Wall.Settings)
	if err != nil {
		return err
	}
	m, err := mark.OnMat(f.luma, found, page, f.ask.Wall.Settings.Tile.Thickness, mark.Lens35(f.photo.Focal), f.tint()...)
	if err != nil {
		return f.asPlain(err)
	}
	label, read := m.Label(f.luma, page, mark.LabelsOf(f.ask.Wall))
	n, err := f.ask.matNumber(label, read)
	if err != nil {
		return err
	}
	face := Face{Tile: n, Quad: m.Tile, Found: FoundMarks, Warning: f.matWarning(&m)}
	if named, ok := tiles.NumberFromPhoto(f.ask.Photo); ok && read && named != n && n == label {
		f.note("the photo is named for tile %s but shows the label of tile %s: the label was believed", named, n)
	}
	f.Faces = []Face{face}
	f.Paper, f.Card = m.Paper, &m.ReferencePlace
	return nil
}

// matNumber is the tile set by hand, or that the label says, or the photo's name.
func (a Ask) matNumber(label tiles.Number, read bool) (tiles.Number, error) {
	if _, known := a.Wall.Tile(label); read && known {
		if n, ok := a.numberByHand(); ok {
			label = n
		}
		return label, a.check(label, true)
	}
	n, err := a.number(func() (tiles.Number, bool) { return label, read })
	if err != nil && !read && n == 0 {
		return 0, a.problem("it shows the mat, but the code of the label cannot be read, and its name does not begin with a tile's number",
			`lay the label flat and face up in its place and go nearer, or name the photo after its tile, like "7.jpg"`)
	}
	return n, err
}

// asPlain reads a photo whose marks do not suffice as one without, and says so.
func (f *finding) asPlain(cause error) error {
	if err := f.plain(); err != nil {
		return f.ask.problem(cause.Error(), "")
	}
	f.note("%s. The tile was looked for without them", cause)
	return nil
}

func (f *finding) matWarning(m *mark.Mat) string {
	switch {
	case mark.Lens35(f.photo.Focal).Wide():
		return "taken with an ultrawide lens: step back and use the main one"
	case m.View.Tilt() > mostTilt:
		return fmt.Sprintf("taken from %.0f degrees aside: hold the camera above the middle of the mat", m.View.Tilt())
	case m.View.Residual > mostResidual:
		return "the mat does not lie flat: put it on a board"
	case !m.Settled:
		return "the tile's edges do not stand out from the mat, so its printed place was read: see in build/contact.html that the tile fills it, or draw its outline by hand"
	}
	return ""
}
