package record

import (
	"bytes"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// WithByHand is the text of tiles/by-hand.csv saying that of a photo: whose
// tile it is, where its face lies, or both. The photo's row of that tile is
// changed, or the only row it has; else a row is added below. Nothing said of
// it takes the row out. Every other byte stays. Errors are tiles.Problems.
func WithByHand(text []byte, b tiles.ByHand) ([]byte, error) {
	if text == nil {
		text = []byte(strings.Join(ByHandColumns, ",") + "\n")
	}
	k, err := table.Keep(ByHandFile, text)
	if err != nil {
		return nil, err
	}
	if ps := k.Need("photo"); len(ps) > 0 {
		return nil, ps
	}
	tile, outline := "", ""
	switch {
	case b.Card:
		tile = CardWord
	case b.Tile > 0:
		tile = b.Tile.String()
	}
	if b.Drawn {
		outline = outlineCell(b.Outline)
	}
	columns := len(k.Columns)
	cells := map[int]string{k.AddColumn("photo"): b.Photo, k.AddColumn("tile"): tile, k.AddColumn("outline"): outline}
	at := rowOfPhoto(k.Table, b)
	var rows []table.Wanted
	for i := range k.Data() {
		switch {
		case i != at:
			rows = append(rows, table.Wanted{Of: i})
		case tile != "" || outline != "":
			delete(cells, k.Column("photo")) // as it was typed
			rows = append(rows, table.Wanted{Of: i, Cells: cells})
		}
	}
	if at < 0 && (tile != "" || outline != "") {
		rows = append(rows, table.Wanted{Of: -1, Cells: cells})
	}
	after, err := k.With(k.Columns[columns:], rows)
	if err != nil {
		return nil, err
	}
	_, err = ParseByHand(after)
	return after, err
}

// rowOfPhoto is the row that is changed, among the table's data; -1 = none.
func rowOfPhoto(t *table.Table, b tiles.ByHand) int {
	only, of := -1, 0
	for i, r := range t.Data() {
		if !tiles.SamePhoto(photoCell(t.Cell(r, "photo")), b.Photo) || strings.EqualFold(t.Cell(r, "tile"), CardWord) != b.Card {
			continue
		}
		if n, err := tiles.ParseNumber(t.Cell(r, "tile")); err == nil && n == b.Tile {
			return i
		}
		only, of = i, of+1
	}
	if of > 1 {
		return -1
	}
	return only
}

// outlineCell writes an outline as people type it: x y of the four corners.
func outlineCell(q [4][2]float64) string {
	var words []string
	for _, corner := range q {
		for _, x := range corner {
			words = append(words, strconv.FormatFloat(x, 'f', -1, 64))
		}
	}
	return strings.Join(words, " ")
}

// ParseByHand reads the text of a tiles/by-hand.csv.
func ParseByHand(text []byte) ([]tiles.ByHand, error) {
	t, err := table.Read(ByHandFile, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	var out []tiles.ByHand
	err = rowsOf(t, ByHandColumns, nil, []string{"photo"}, handRow(&out))
	return out, err
}
