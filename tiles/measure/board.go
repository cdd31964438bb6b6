package measure

import (
	"errors"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/target"
)

// Limits past which a photo of the board is warned about.
const (
	bowSaid    = 3.0 // mm off flat from which a board is called bowed
	leastScale = 1.6 // pixels a mm on a board: a tag's cell is then 3 pixels
)

// onBoard is a photo of the whole board.
func (f *finding) onBoard(found []mark.Found) error {
	board, err := target.Board(f.ask.Wall)
	if err != nil {
		return err
	}
	if len(board.Places) == 0 {
		return f.ask.problem("it shows the board, but no tile of the plan hangs on it", "make the plan first")
	}
	b, err := mark.OnBoard(f.luma, found, board, f.ask.Wall.Settings.Tile.Thickness, mark.Lens35(f.photo.Focal))
	var few mark.Few
	if errors.As(err, &few) {
		return f.ask.problem(err.Error(), "")
	}
	if err != nil {
		return f.ask.problem("the board's marks do not stand where the wall's settings put them", "check photo: board in wall.yaml, and each mark's place on the sheet “board”")
	}
	f.boardNotes(&b)
	if err := f.hung(&b); err != nil {
		return err
	}
	f.Whole = true
	f.Paper, f.Ink, f.Tags = b.Paper(), b.Ink(), b.Tags()
	return nil
}

// boardNotes says what to do differently next time.
func (f *finding) boardNotes(b *mark.Board) {
	if n := len(b.Marks); n < 6 {
		f.note("only %d of the board's 8 marks were seen: keep all of them in the picture and in focus", n)
	}
	if mark.Lens35(f.photo.Focal).Wide() {
		f.note("taken with an ultrawide lens: step back and use the main one")
	}
	if t := b.View.Tilt(); t > mostTilt {
		f.note("taken from %.0f degrees aside: stand before the middle of the board", t)
	}
	if b.Bowed > bowSaid {
		f.note("the board is bowed by about %.0f mm; the tags were used to follow it", b.Bowed)
	}
	small := 0
	for _, h := range b.Tiles {
		if b.View.Scale(h.Place.Tag.X, h.Place.Tag.Y) < leastScale {
			small++
		}
	}
	if small > 0 {
		f.note("%s too small in the picture for the tags to be read surely: go nearer, stand straight before the board, or use 12 megapixels or more", english.Count(small, "tile is", "tiles are"))
	}
}

// hung makes a face of every tile whose own tag hangs under it; a tile whose
// tag could not be read keeps its place where it is marked fired, and is
// warned about; one under another's tag is named and left out.
func (f *finding) hung(b *mark.Board) error {
	var empty []string
	for _, h := range b.Tiles {
		t, _ := f.ask.Wall.Tile(h.Place.Tile)
		face := Face{Tile: h.Place.Tile, Quad: h.Face, Found: FoundMarks}
		switch {
		case h.Turned && h.Read == h.Place.Tile:
			f.note("tile %s hangs upside down: turn it", h.Place.Tile)
			continue
		case h.Read != 0 && h.Read != h.Place.Tile:
			f.note("tile %s hangs where tile %s belongs: it was read as tile %s", h.Read, h.Place.Tile, h.Read)
			face.Tile = h.Read
		case h.Read == 0 && t.Status != tiles.Fired:
			continue // planned: nothing hangs here yet
		case h.Read == 0:
			empty = append(empty, h.Place.Tile.String())
			continue
		}
		f.Faces = append(f.Faces, face)
	}
	if len(empty) > 0 {
		f.note("%s left out: the tag under %s cannot be read (missing, covered, in glare or too small)", list("tile", empty), pronoun(empty))
	}
	if len(empty) > len(f.Faces) && len(f.Faces) > 0 {
		f.note("most tags cannot be read: the picture is soft or too small; hold still, go nearer, and use 12 megapixels or more")
	}
	if len(f.Faces) == 0 {
		return f.ask.problem("it shows the board, but no tag under a tile can be read in it", "go nearer, hold still, and keep lamps from shining back off the tiles")
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
