package site

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// wallColumn is one wallColumn of the wall: a second glaze, or one coat alone.
type wallColumn struct {
	head Head
	code string // "" = alone
}

// columns lists the wall's columns. One coat alone has a column of its own
// only where some glaze hangs both alone and twice; else it hangs on the
// diagonal.
func (w *hanging) columns() []wallColumn {
	var cols []wallColumn
	if w.both {
		cols = append(cols, wallColumn{Head{Nth: "1st", Plain: "alone"}, ""})
	}
	for _, g := range w.glaze {
		cols = append(cols, wallColumn{head("2nd", g), g.Code})
	}
	return cols
}

func (w *hanging) hangsBoth() bool {
	for _, g := range w.glaze {
		_, alone := w.own[tiles.Pair{First: g.Code}.Key()]
		_, twice := w.own[tiles.Pair{First: g.Code, Second: g.Code}.Key()]
		if alone && twice {
			return true
		}
	}
	return false
}

// place finds what hangs in a place of the wall.
func (w *hanging) place(first string, c wallColumn) (*hung, tiles.Pair) {
	p := tiles.Pair{First: first, Second: c.code}
	if h, ok := w.own[p.Key()]; ok {
		return h, p
	}
	if p.Double() {
		alone := tiles.Pair{First: first}
		if h, ok := w.own[alone.Key()]; ok && !w.both {
			return h, alone
		}
	}
	return nil, p
}

// placeWords says where on the wall a tile hangs; "" = nowhere.
func (w *hanging) placeWords(h *hung) string {
	if w.own[h.Pair.Key()] != h {
		return ""
	}
	row, column := w.index[tiles.CodeKey(h.First)], w.index[tiles.CodeKey(h.First)]
	switch {
	case !h.Single():
		column = w.index[tiles.CodeKey(h.Second)] + flag(w.both)
	case w.both:
		column = 0
	}
	return fmt.Sprintf("row %d, column %d", row+1, column+1)
}

// matrix is the wall, rows first.
func (w *hanging) matrix(cols []wallColumn) [][]*hung {
	rows := make([][]*hung, len(w.glaze))
	for i, g := range w.glaze {
		rows[i] = make([]*hung, len(cols))
		for j, c := range cols {
			rows[i][j], _ = w.place(g.Code, c)
		}
	}
	return rows
}
