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

// onMat is a photo of one tile on the mat, or of two on the mat for two tiles.
func (f *finding) onMat(found []mark.Found) error {
	page, err := f.page(found)
	if err != nil {
		return err
	}
	m, err := mark.OnMat(f.luma, found, page, f.ask.Wall.Settings.Tile.Thickness, mark.Lens35(f.photo.Focal), f.tint()...)
	if err != nil {
		return f.asPlain(err)
	}
	if m.Beside != nil {
		err = f.pair(&m)
	} else {
		err = f.one(&m)
	}
	f.Paper = m.Paper
	return err
}

// page is the mat that the photo shows: for one tile or for two.
func (f *finding) page(found []mark.Found) (target.Page, error) {
	one, err := target.Mat(f.ask.Wall.Settings)
	if err != nil {
		return one, err
	}
	two, err := target.PairMat(f.ask.Wall.Settings)
	if err != nil { // tiles too large for it: it was never printed
		return one, nil
	}
	return mark.PageOf(found, one, two), nil
}

// one is the tile on a mat for one.
func (f *finding) one(m *mark.Mat) error {
	label, read := m.Label(f.luma, &m.Lying, mark.LabelsOf(f.ask.Wall))
	if label.Mirrored {
		return f.mirrored()
	}
	if read {
		if err := f.twoLabels(m, label); err != nil {
			return err
		}
	}
	n, err := f.ask.matNumber(label.Tile, read)
	if err != nil {
		return err
	}
	if named, ok := tiles.NumberFromPhoto(f.ask.Photo); ok && read && named != n && n == label.Tile {
		f.note("the photo is named for tile %s but shows the label of tile %s: the label was believed", named, n)
	}
	f.Faces = []Face{f.lying(m, &m.Lying, n)}
	f.Card = &m.ReferencePlace
	return nil
}

// twoLabels looks for a second label in the picture. One that lies out of place
// beside one that does not is said; otherwise nothing tells which is the tile's.
func (f *finding) twoLabels(m *mark.Mat, label mark.Label) error {
	other, clear, found := m.Another(f.luma, label)
	if _, byHand := f.ask.numberByHand(); !found || byHand || other == label.Tile {
		return nil
	}
	if !clear {
		return f.ask.problem(fmt.Sprintf("two labels lie on the mat, of tile %s and of tile %s", label.Tile, other),
			"take the one away that is not the tile's and photograph it again, or say which tile it is in tiles/by-hand.csv")
	}
	f.note("two labels are in the picture, of tile %s and of tile %s: the one in its place was believed, tile %s", label.Tile, other, label.Tile)
	return nil
}

// pair is the two tiles on a mat for two, each by its own label. One whose label
// cannot be read is left out, unless the photo's name says which it is.
func (f *finding) pair(m *mark.Mat) error {
	lying := m.Tiles()
	f.Pair = true
	var numbers [2]tiles.Number
	for i, l := range lying {
		label, _ := m.Label(f.luma, l, mark.LabelsOf(f.ask.Wall))
		if label.Mirrored {
			return f.mirrored()
		}
		numbers[i] = label.Tile
	}
	if named, ok := tiles.NumberFromPhoto(f.ask.Photo); ok && named != numbers[0] && named != numbers[1] {
		for i := range numbers {
			if numbers[i] == 0 && numbers[1-i] != 0 {
				numbers[i] = named
			}
		}
	}
	if numbers[0] != 0 && numbers[0] == numbers[1] {
		return f.ask.problem(fmt.Sprintf("both labels on the mat for two tiles are of tile %s", numbers[0]), "lay each tile over its own label and photograph them again")
	}
	for i, n := range numbers {
		if _, known := f.ask.Wall.Tile(n); !known {
			continue
		}
		f.Faces = append(f.Faces, f.lying(m, lying[i], n))
	}
	switch {
	case len(f.Faces) == 0:
		return f.ask.problem("it shows the mat for two tiles, but neither label can be read as a tile of the plan",
			"lay each tile's label flat and face up under it and go nearer")
	case len(f.Faces) == 1:
		f.note("only the label of tile %s can be read on the mat for two tiles: the other tile was left out", f.Faces[0].Tile)
	}
	return nil
}

// lying is the face of a tile on the mat.
func (f *finding) lying(m *mark.Mat, l *mark.Lying, n tiles.Number) Face {
	return Face{Tile: n, Quad: l.Tile, Found: FoundMarks, Warning: f.matWarning(m, l)}
}

// mirrored refuses a photo that shows everything the wrong way round.
func (f *finding) mirrored() error {
	return f.ask.problem("it is mirrored: left and right are the wrong way round in it",
		"turn mirroring off in the camera's settings, or use the camera on the phone's back, and photograph it again")
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

func (f *finding) matWarning(m *mark.Mat, l *mark.Lying) string {
	switch {
	case mark.Lens35(f.photo.Focal).Wide():
		return "taken with an ultrawide lens: step back and use the main one"
	case m.View.Tilt() > mostTilt:
		return fmt.Sprintf("taken from %.0f degrees aside: hold the camera above the middle of the mat", m.View.Tilt())
	case m.View.Residual > mostResidual:
		return "the mat does not lie flat: put it on a board"
	case !l.Settled:
		return "the tile's edges do not stand out from the mat, so its printed place was read: see in build/contact.html that the tile fills it, or draw its outline by hand"
	}
	return ""
}
