package measure

import (
	"errors"
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/target"
)

// Limits past which a photo by marks is warned about.
const (
	mostTilt   = 40.0 // degrees from straight on
	bowSaid    = 3.0  // mm off flat from which a board is called bowed
	leastScale = 1.6  // pixels a mm on a board: a tag's cell is then 3 pixels
)

// onMat is a photo of one tile on the mat.
func (s *scene) onMat(found []mark.Found, ask Ask, hand []tiles.ByHand) error {
	page, err := target.Mat(ask.Wall.Settings)
	if err != nil {
		return err
	}
	m, err := mark.OnMat(s.luma, found, page, ask.Wall.Settings.Tile.Thickness, mark.Lens35(s.photo.Focal), s.tint()...)
	if err != nil {
		return s.asPlain(err, ask, hand)
	}
	label, read := m.Label(s.luma, page, mark.LabelsOf(ask.Wall))
	n, err := s.matNumber(ask, hand, label, read)
	if err != nil {
		return err
	}
	f := Face{Tile: n, Quad: Quad(quadOf(m.Tile)), Found: FoundMarks, Warning: s.matWarning(&m)}
	if named, ok := tiles.NumberFromPhoto(ask.Photo); ok && read && named != n && n == label {
		s.note(fmt.Sprintf("the photo is named for tile %s but shows the label of tile %s: the label was believed", named, n))
	}
	s.faces = []Face{f}
	s.readLight(m.Paper, nil)
	if s.paper[1] > 0 && s.paper[1] < darkPaper {
		s.note(saidDark)
	}
	place := quadOf(m.ReferencePlace)
	s.cardPlace = &place
	return nil
}

// matNumber is the tile set by hand, or that the label says, or the photo's name.
func (s *scene) matNumber(ask Ask, hand []tiles.ByHand, label tiles.Number, read bool) (tiles.Number, error) {
	if _, known := ask.Wall.Tile(label); read && known {
		if n, ok := byHandNumber(hand); ok {
			label = n
		}
		return label, ask.check(label, true)
	}
	n, err := s.number(ask, hand, func() (tiles.Number, bool) { return label, read })
	if err != nil && !read && n == 0 {
		return 0, ask.problem("it shows the mat, but the code of the label cannot be read, and its name does not begin with a tile's number",
			`lay the label flat and face up in its place and go nearer, or name the photo after its tile, like "7.jpg"`)
	}
	return n, err
}

// asPlain reads a photo whose marks do not suffice as one without, and says so.
func (s *scene) asPlain(cause error, ask Ask, hand []tiles.ByHand) error {
	if err := s.plain(ask, hand); err != nil {
		return ask.problem(cause.Error(), "")
	}
	s.note(cause.Error() + ". The tile was looked for without them")
	return nil
}

func (s *scene) note(what string) { s.notes = append(s.notes, what) }

func (s *scene) matWarning(m *mark.Mat) string {
	switch {
	case mark.Lens35(s.photo.Focal).Wide():
		return "taken with an ultrawide lens: step back and use the main one"
	case m.View.Tilt() > mostTilt:
		return fmt.Sprintf("taken from %.0f degrees aside: hold the camera above the middle of the mat", m.View.Tilt())
	case m.View.Residual > 4:
		return "the mat does not lie flat: put it on a board"
	case !m.Settled:
		return "the tile's edges do not stand out from the mat, so its printed place was read: see in build/contact.html that the tile fills it, or draw its outline by hand"
	}
	return ""
}

// tint is the photo's differences of color, where it has them.
func (s *scene) tint() (out []mark.Plane) {
	for _, p := range s.photo.Tint() {
		out = append(out, mark.Gray(p))
	}
	return out
}

// onBoard is a photo of the whole board.
func (s *scene) onBoard(found []mark.Found, ask Ask) error {
	board, err := target.Board(ask.Wall)
	if err != nil {
		return err
	}
	if len(board.Places) == 0 {
		return ask.problem("it shows the board, but no tile of the plan hangs on it", "make the plan first: twodip plan")
	}
	b, err := mark.OnBoard(s.luma, found, board, ask.Wall.Settings.Tile.Thickness, mark.Lens35(s.photo.Focal))
	var few mark.Few
	if errors.As(err, &few) {
		return ask.problem(err.Error(), "")
	}
	if err != nil {
		return ask.problem("the board's marks do not stand where the wall's settings put them", "check photo: board in wall.yaml, and each mark's place on the sheet of twodip print board")
	}
	s.boardNotes(&b)
	if err := s.hung(&b, ask); err != nil {
		return err
	}
	s.whole = true
	s.readLight(b.Paper(), b.Ink())
	return nil
}

// boardNotes says what to do differently next time.
func (s *scene) boardNotes(b *mark.Board) {
	if n := len(b.Marks); n < 6 {
		s.note(fmt.Sprintf("only %d of the board's 8 marks were seen: keep all of them in the picture and in focus", n))
	}
	if mark.Lens35(s.photo.Focal).Wide() {
		s.note("taken with an ultrawide lens: step back and use the main one")
	}
	if t := b.View.Tilt(); t > mostTilt {
		s.note(fmt.Sprintf("taken from %.0f degrees aside: stand before the middle of the board", t))
	}
	if b.Bowed > bowSaid {
		s.note(fmt.Sprintf("the board is bowed by about %.0f mm; the tags were used to follow it", b.Bowed))
	}
	small := 0
	for _, h := range b.Tiles {
		if b.View.Scale(h.Place.Tag.X, h.Place.Tag.Y) < leastScale {
			small++
		}
	}
	if small > 0 {
		s.note(fmt.Sprintf("%d tiles are too small in the picture for their tags: go nearer, stand straight before the board, or use 12 megapixels or more", small))
	}
}

// hung makes a face of every tile whose own tag hangs under it; a tile whose
// tag could not be read keeps its place where it is marked fired, and is
// warned about; one under another's tag is named and left out.
func (s *scene) hung(b *mark.Board, ask Ask) error {
	var empty []string
	for _, h := range b.Tiles {
		t, _ := ask.Wall.Tile(h.Place.Tile)
		f := Face{Tile: h.Place.Tile, Quad: quadOf(h.Face), Found: FoundMarks}
		switch {
		case h.Turned && h.Read == h.Place.Tile:
			s.note(fmt.Sprintf("tile %s hangs upside down: turn it", h.Place.Tile))
			continue
		case h.Read != 0 && h.Read != h.Place.Tile:
			s.note(fmt.Sprintf("tile %s hangs where tile %s belongs: it was read as tile %s", h.Read, h.Place.Tile, h.Read))
			f.Tile = h.Read
		case h.Read == 0 && t.Status != tiles.Fired:
			continue // planned: nothing hangs here yet
		case h.Read == 0:
			empty = append(empty, h.Place.Tile.String())
			continue
		}
		s.faces = append(s.faces, f)
	}
	if len(empty) > 0 {
		s.note(fmt.Sprintf("%s left out: the tag under %s cannot be read (missing, covered, in glare or too small)", list("tile", empty), pronoun(empty)))
	}
	if len(empty) > len(s.faces) && len(s.faces) > 0 {
		s.note("most tags cannot be read: the picture is soft or too small; hold still, go nearer, and use 12 megapixels or more")
	}
	if len(s.faces) == 0 {
		return ask.problem("it shows the board, but no tag under a tile can be read in it", "go nearer, hold still, and keep lamps from shining back off the tiles")
	}
	return nil
}

func pronoun(list []string) string {
	if len(list) == 1 {
		return "it"
	}
	return "each"
}

// list says a few names in words: "tile 7", "tiles 7, 8 and 12".
func list(what string, names []string) string {
	if len(names) == 1 {
		return what + " " + names[0]
	}
	out := what + "s "
	for i, n := range names {
		switch {
		case i == len(names)-1:
			out += " and "
		case i > 0:
			out += ", "
		}
		out += n
	}
	return out
}

func quadOf(q mark.Quad) (out Quad) {
	for i, p := range q {
		out[i] = Point(p)
	}
	return out
}
