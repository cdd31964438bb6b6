package record

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// NotLookedAt are the rows from phones that nobody has looked at, with the key
// of each.
func NotLookedAt(dir folder.Folder, s tiles.LogSettings) (out []Arrival, err error) {
	err = eachMarked(dir, s, func(l *Log, r table.Row) {
		if l.table.Cell(r, LookedColumn) == NotLooked {
			p, _ := l.piece(r)
			out = append(out, Arrival{Key: l.table.Cell(r, KeyColumn), Piece: p})
		}
	})
	return out, err
}

func eachMarked(dir folder.Folder, s tiles.LogSettings, each func(*Log, table.Row)) error {
	t, _, err := wholeText(dir, s)
	if err != nil {
		return err
	}
	l, err := newLog(t, s)
	if err != nil {
		return err
	}
	for _, r := range t.Data() {
		each(l, r)
	}
	return nil
}

// MarkLooked marks the rows with the keys as looked at. Every other byte of the
// log stays.
func MarkLooked(dir folder.Folder, s tiles.LogSettings, keys []string) (marked int, err error) {
	return changeRows(dir, s, func(l *Log, r *table.Row) bool {
		if l.table.Cell(*r, LookedColumn) != NotLooked || !slices.Contains(keys, l.table.Cell(*r, KeyColumn)) {
			return false
		}
		r.Set(l.table.AddColumn(LookedColumn), Looked)
		return true
	})
}

// FillPiece writes cells into the row of a piece where they are empty, and says
// which it wrote. Where one says something else already nothing is written, and
// the error says so.
func FillPiece(dir folder.Folder, s tiles.LogSettings, id string, row Cells) (filled Cells, err error) {
	err = changePiece(dir, s, id, func(l *Log, r *table.Row) error {
		filled, err = fillCells(l, r, id, row)
		return err
	})
	return filled, err
}

func fillCells(l *Log, r *table.Row, id string, row Cells) (filled Cells, err error) {
	filled = Cells{}
	for _, name := range LogColumns {
		switch is := l.cell(*r, name); {
		case row[name] == "" || is == row[name]:
		case is != "":
			return filled, tiles.Problem{File: LogFile, What: fmt.Sprintf("piece %s says %s %s already", id, name, is), Do: "the teacher can take it back on the bench"}
		default:
			i, ok := l.at[name]
			if !ok {
				i = l.table.AddColumn(name)
				l.at[name] = i
			}
			r.Set(i, row[name])
			filled[name] = row[name]
		}
	}
	return filled, nil
}

// EmptyPiece takes cells of a piece's row back out, where they still say what
// they are thought to say ("" = whatever it is). Where one says something else
// nothing is taken, and the error says so; nor is the load of a piece that has
// come out of it.
func EmptyPiece(dir folder.Folder, s tiles.LogSettings, id string, row Cells) error {
	return changePiece(dir, s, id, func(l *Log, r *table.Row) error { return emptyCells(l, r, id, row) })
}

func emptyCells(l *Log, r *table.Row, id string, row Cells) error {
	_, takesLoad := row["load"]
	if _, takesResult := row["result"]; takesLoad && !takesResult && l.cell(*r, "result") != "" {
		return tiles.Problem{File: LogFile, What: "piece " + id + " has come out of its load", Do: "take back first how it came out"}
	}
	for name, thought := range row {
		i, ok := l.at[name]
		is := l.cell(*r, name)
		if thought != "" && is != thought {
			return tiles.Problem{File: LogFile, What: "piece " + id + " says something else by now", Do: "ask the teacher"}
		}
		if ok && is != "" {
			r.Set(i, "")
		}
	}
	return nil
}

// changePiece changes the row of one piece, or nothing where change refuses.
func changePiece(dir folder.Folder, s tiles.LogSettings, id string, change func(*Log, *table.Row) error) error {
	_, text, err := readText(dir, LogFile, LogColumns)
	if err != nil {
		return err
	}
	out, err := changedPiece(text, s, id, change)
	if err != nil || bytes.Equal(out, text) {
		return err
	}
	return dir.WriteBytes(LogFile, out)
}

// changedPiece is a log's text with the row of one piece changed.
func changedPiece(text []byte, s tiles.LogSettings, id string, change func(*Log, *table.Row) error) (out []byte, err error) {
	var refused error
	found := false
	out, _, err = changedRows(text, s, func(l *Log, r *table.Row) bool {
		if found || !strings.EqualFold(l.cell(*r, "piece"), id) || id == "" {
			return false
		}
		found = true
		now := *r
		now.Cells = slices.Clone(r.Cells)
		if refused = change(l, &now); refused != nil || slices.Equal(now.Cells, r.Cells) {
			return false
		}
		*r = now
		return true
	})
	if err == nil && refused == nil && !found {
		refused = tiles.Problem{File: LogFile, What: "there is no piece " + id, Do: "look at the number on its foot again"}
	}
	if err == nil {
		err = refused
	}
	return out, err
}

// BlankMaker takes a maker out of a log's text, whatever the case and the
// spaces. pieces are the names of the rows it touched.
func BlankMaker(text []byte, s tiles.LogSettings, maker string) (out []byte, pieces []string, err error) {
	return changedRows(text, s, func(l *Log, r *table.Row) bool {
		i, ok := l.at["maker"]
		if !ok || tiles.Fold(r.Cell(i)) != tiles.Fold(maker) || r.Cell(i) == "" {
			return false
		}
		r.Set(i, "")
		return true
	})
}

// changeRows changes rows of the log, one after the other; every other byte of it stays.
func changeRows(dir folder.Folder, s tiles.LogSettings, change func(*Log, *table.Row) bool) (changed int, err error) {
	_, text, err := readText(dir, LogFile, LogColumns)
	if err != nil {
		return 0, err
	}
	out, pieces, err := changedRows(text, s, change)
	if err != nil || len(pieces) == 0 {
		return 0, err
	}
	return len(pieces), dir.WriteBytes(LogFile, out)
}

func changedRows(text []byte, s tiles.LogSettings, change func(*Log, *table.Row) bool) (out []byte, pieces []string, err error) {
	t, err := table.Read(LogFile, strings.NewReader(string(text)))
	if err != nil {
		return nil, nil, err
	}
	l, err := newLog(t, s)
	if err != nil {
		return nil, nil, err
	}
	var rows []table.Row
	for _, r := range t.Data() {
		r.Cells = slices.Clone(r.Cells)
		if change(l, &r) {
			rows, pieces = append(rows, r), append(pieces, l.cell(r, "piece"))
		}
	}
	if len(rows) == 0 {
		return text, nil, nil
	}
	out, err = t.Replaced(text, rows)
	if err != nil {
		return nil, nil, err
	}
	again, err := table.Read(LogFile, strings.NewReader(string(out)))
	if err == nil {
		_, err = newLog(again, s)
	}
	return out, pieces, err
}

// NotesNaming are the pieces of a log's text whose note holds a word.
func NotesNaming(text []byte, s tiles.LogSettings, word string) (pieces []string, err error) {
	_, _, err = changedRows(text, s, func(l *Log, r *table.Row) bool {
		for _, one := range strings.FieldsFunc(l.cell(*r, "note"), func(r rune) bool { return strings.ContainsRune(" ,.;:!?()", r) }) {
			if tiles.Fold(one) == tiles.Fold(word) {
				pieces = append(pieces, l.cell(*r, "piece"))
				break
			}
		}
		return false
	})
	return pieces, err
}
