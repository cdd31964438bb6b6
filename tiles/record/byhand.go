package record

import (
	"errors"
	"fmt"
	"path"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// ByHandFile is what people have set for single photos: a row a tile.
const ByHandFile = "tiles/by-hand.csv"

// ByHandColumns is the headings of the file, in order.
var ByHandColumns = []string{"photo", "tile", "outline", "note"}

// CardWord in the column tile says that the outline is of the grey card, or of
// the patches of the chart, and not of a tile.
const CardWord = "card"

// ReadByHand reads tiles/by-hand.csv of the wall, in the order of the file; a
// wall without one has none. Errors are tiles.Problems.
func ReadByHand(dir folder.Folder) ([]tiles.ByHand, error) {
	var out []tiles.ByHand
	err := eachRow(dir, ByHandFile, ByHandColumns, nil, []string{"photo"}, handRow(&out))
	return out, err
}

// photoCell is the photo that a cell names.
func photoCell(cell string) string { return path.Clean(strings.ReplaceAll(cell, `\`, "/")) }

// handRow reads a row of the file.
func handRow(out *[]tiles.ByHand) func(cellsOf) error {
	return func(r cellsOf) error {
		b := tiles.ByHand{Photo: photoCell(r.cell("photo")), Line: r.Line}
		if r.cell("photo") == "" {
			return errors.New("photo is empty: give the photo's file name")
		}
		var err error
		if cell := r.cell("tile"); strings.EqualFold(cell, CardWord) {
			b.Card = true
		} else if cell != "" {
			if b.Tile, err = tiles.ParseNumber(cell); err != nil {
				return err
			}
		}
		if cell := r.cell("outline"); cell != "" {
			b.Drawn = true
			if b.Outline, err = parseOutline(cell); err != nil {
				return err
			}
		}
		if b.Card && !b.Drawn {
			return errors.New("the card's outline is empty: give x and y of its four corners")
		}
		if b.Tile == 0 && !b.Drawn {
			return errors.New("neither a tile nor an outline is given")
		}
		*out = append(*out, b)
		return nil
	}
}

// parseOutline reads eight numbers, x and y of the four corners.
func parseOutline(cell string) (q [4][2]float64, err error) {
	fields := strings.FieldsFunc(cell, func(r rune) bool { return strings.ContainsRune(" ,;\t", r) })
	if len(fields) != 8 {
		return q, fmt.Errorf("the outline has %d numbers, not 8: x and y of the four corners, in pixels, from the tile's own top left clockwise", len(fields))
	}
	for i, f := range fields {
		if q[i/2][i%2], err = table.Number(f); err != nil {
			return q, fmt.Errorf("%q in the outline is not a number", f)
		}
	}
	if !clockwise(q) {
		return q, errors.New("the outline's corners do not go round clockwise from the tile's own top left")
	}
	return q, nil
}

// clockwise says that the corners go round once without a dent.
func clockwise(q [4][2]float64) bool {
	for i := range q {
		a, b, c := q[i], q[(i+1)%4], q[(i+2)%4]
		if !((b[0]-a[0])*(c[1]-b[1])-(b[1]-a[1])*(c[0]-b[0]) > 0) {
			return false
		}
	}
	return true
}
