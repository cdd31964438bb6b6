package record

import (
	"bytes"
	"errors"
	"io/fs"
	"slices"
	"strings"
	"unicode"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// WaitingFile holds what phones sent while a command had the wall, until it is
// taken up into the log: rows, and what was said at the kiln, in the order in
// which it came. It is read wherever the log is, so that nobody has to know of
// it. Only the holder of the desk may write it (folder.Desk).
const WaitingFile = "tiles/log-waiting.csv"

// waitingColumns are those of the log. A row without a key says cells of a piece
// that the log has, or what was taken back of them.
var waitingColumns = append(slices.Clone(LogColumns), LookedColumn, KeyColumn)

// takenBack stands below LookedColumn where cells were taken back.
const takenBack = "taken back"

// Waits says that something waits to be taken up into the log.
func Waits(dir folder.Folder) bool { return dir.Has(WaitingFile) }

// CountWaiting is how many rows, and times that something was said of one, wait.
func CountWaiting(dir folder.Folder) (int, error) {
	all, err := waiting(dir)
	return len(all), err
}

// waiting reads what waits.
func waiting(dir folder.Folder) ([]Cells, error) {
	text, err := dir.Lines(WaitingFile, mostText)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil || len(text) == 0:
		return nil, err
	}
	t, err := table.Read(WaitingFile, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	if ps := t.Need("piece", KeyColumn); len(ps) > 0 {
		return nil, ps
	}
	var out []Cells
	for _, r := range t.Data() {
		c := Cells{}
		for _, name := range waitingColumns {
			if value := t.Cell(r, name); value != "" {
				c[name] = value
			}
		}
		out = append(out, c)
	}
	return out, nil
}

// wait puts rows below what waits, and onto the disk.
func wait(dir folder.Folder, rows ...Cells) error {
	t := table.New(WaitingFile, waitingColumns...)
	var head, all bytes.Buffer
	if err := t.Write(&head); err != nil {
		return err
	}
	for _, c := range rows {
		var r table.Row
		for i, name := range waitingColumns {
			r.Set(i, oneLine(c[name]))
		}
		t.Rows = append(t.Rows, r)
	}
	if err := t.Write(&all); err != nil {
		return err
	}
	return dir.Append(WaitingFile, head.Bytes(), all.Bytes()[head.Len():])
}

// oneLine is a cell in which no line ends: a row that is cut off must be seen to be.
func oneLine(cell string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, cell)
}

// Fold takes what waits up into the log: each row once by its key, under the
// number that its phone was told, and what was said at the kiln where the cells
// are still empty. Only the holder of the wall's lock and of the desk may.
func Fold(dir folder.Folder, s tiles.LogSettings) error {
	if !Waits(dir) {
		return nil
	}
	_, text, err := wholeText(dir, s)
	if err != nil {
		return err
	}
	if err := dir.WriteBytes(LogFile, text); err != nil {
		return err
	}
	return dir.Remove(WaitingFile)
}

// wholeText is the log with what waits, as it will be.
func wholeText(dir folder.Folder, s tiles.LogSettings) (*table.Table, []byte, error) {
	waits, err := waiting(dir) // first: what is taken up meanwhile is in the log
	if err != nil {
		return nil, nil, err
	}
	t, text, err := readText(dir, LogFile, LogColumns)
	if err != nil || len(waits) == 0 {
		return t, text, err
	}
	if text, err = withArrived(t, text, s, waits); err != nil {
		return nil, nil, err
	}
	if text, err = withSaid(text, s, waits); err != nil {
		return nil, nil, err
	}
	t, err = table.Read(LogFile, bytes.NewReader(text))
	return t, text, err
}

// withArrived is the log with the rows that wait and that it has not by their keys.
func withArrived(t *table.Table, text []byte, s tiles.LogSettings, waits []Cells) ([]byte, error) {
	l, err := newLog(t, s)
	if err != nil {
		return nil, err
	}
	known := map[string]bool{"": true}
	for _, r := range t.Data() {
		known[t.Cell(r, KeyColumn)] = true
	}
	var rows []table.Row
	for _, c := range waits {
		if key := c[KeyColumn]; !known[key] {
			known[key] = true
			rows = append(rows, arrivedRow(t, l.at, c))
		}
	}
	if len(rows) == 0 {
		return text, nil
	}
	return t.Grown(text, rows)
}

// arrivedRow is a row from a phone below the log's own headings.
func arrivedRow(t *table.Table, at map[string]int, c Cells) table.Row {
	var r table.Row
	for _, name := range waitingColumns {
		if c[name] == "" {
			continue
		}
		i, ok := at[name]
		if !ok {
			i = t.AddColumn(name)
			at[name] = i
		}
		r.Set(i, c[name])
	}
	return r
}

// withSaid is the log with what was said at the kiln, in the order in which it
// came. What stands in a cell by now stays.
func withSaid(text []byte, s tiles.LogSettings, waits []Cells) ([]byte, error) {
	of := map[string][]Cells{}
	for _, c := range waits {
		if id := strings.ToLower(c["piece"]); c[KeyColumn] == "" && id != "" {
			of[id] = append(of[id], c)
		}
	}
	if len(of) == 0 {
		return text, nil
	}
	out, _, err := changedRows(text, s, func(l *Log, r *table.Row) bool {
		id := strings.ToLower(l.cell(*r, "piece"))
		was := slices.Clone(r.Cells)
		for _, c := range of[id] {
			now := *r
			now.Cells = slices.Clone(r.Cells)
			if sayCells(l, &now, c) == nil {
				*r = now
			}
		}
		delete(of, id) // the first row of that name is the piece
		return !slices.Equal(was, r.Cells)
	})
	return out, err
}

func sayCells(l *Log, r *table.Row, c Cells) error {
	id := c["piece"]
	said := Cells{}
	for name, value := range c {
		if name != "piece" && name != LookedColumn {
			said[name] = value
		}
	}
	if c[LookedColumn] == takenBack {
		return emptyCells(l, r, id, said)
	}
	_, err := fillCells(l, r, id, said)
	return err
}

// SayLater is FillPiece while a command has the wall: what it says waits for the
// log. Only the holder of the desk may.
func SayLater(dir folder.Folder, s tiles.LogSettings, id string, row Cells) (filled Cells, err error) {
	err = later(dir, s, id, "", func(l *Log, r *table.Row) (Cells, error) {
		filled, err = fillCells(l, r, id, row)
		return filled, err
	})
	return filled, err
}

// TakeBackLater is EmptyPiece while a command has the wall. Only the holder of
// the desk may.
func TakeBackLater(dir folder.Folder, s tiles.LogSettings, id string, row Cells) error {
	return later(dir, s, id, takenBack, func(l *Log, r *table.Row) (Cells, error) {
		return row, emptyCells(l, r, id, row)
	})
}

// later holds what is said of a piece against the log as it will be, and lets it wait.
func later(dir folder.Folder, s tiles.LogSettings, id, mark string, say func(*Log, *table.Row) (Cells, error)) error {
	_, text, err := wholeText(dir, s)
	if err != nil {
		return err
	}
	var said Cells
	out, err := changedPiece(text, s, id, func(l *Log, r *table.Row) (err error) {
		said, err = say(l, r)
		return err
	})
	if err != nil || bytes.Equal(out, text) {
		return err
	}
	c := Cells{"piece": id, LookedColumn: mark}
	for name, value := range said {
		c[name] = value
	}
	return wait(dir, c)
}
