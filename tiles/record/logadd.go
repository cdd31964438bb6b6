package record

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// Added says what became of the rows taken into a log.
type Added struct {
	New    int `json:"new"`    // rows appended
	Filled int `json:"filled"` // pieces of the log whose empty cells were filled
	Same   int `json:"same"`   // rows that were in the log already
}

// Incoming is the pieces of one file, ready to be taken into the log.
type Incoming struct {
	File   string // for messages
	Pieces []tiles.Piece
}

// AddPieces takes pieces into tiles/log.csv of the wall, all files or none. A
// piece the log has already, by its name and day, fills its row's empty cells;
// a row without a name is the same where every cell is, and filled by one that
// says all of it and more: a form's export that is taken again once more of its
// headings are known. A cell that would have
// to change is a problem, and then nothing is written. read puts a piece of
// the log into the same words as the pieces.
func AddPieces(dir folder.Folder, s tiles.LogSettings, files []Incoming, read func(tiles.Piece) tiles.Piece) (Added, error) {
	l, err := keptLog(dir, s)
	if err != nil {
		return Added{}, err
	}
	in := intake{Log: l, read: read}
	in.index()
	for _, f := range files {
		in.file = f.File
		for _, p := range f.Pieces {
			in.take(p)
		}
	}
	if len(in.problems) > 0 {
		return Added{}, in.problems
	}
	if in.added.New+in.added.Filled == 0 {
		return in.added, nil
	}
	return in.added, writeTable(dir, LogFile, l.table, func(again *table.Table) error {
		_, err := newLog(again, s)
		return err
	})
}

// keptLog is the wall's log in memory, to be written again.
func keptLog(dir folder.Folder, s tiles.LogSettings) (*Log, error) {
	t, err := schema[tiles.Piece]{file: LogFile}.open(dir)
	if err != nil {
		return nil, err
	}
	if t == nil {
		t = table.New(LogFile, LogColumns...)
	}
	return newLog(t, s)
}

// intake is a log being added to.
type intake struct {
	*Log
	file     string
	read     func(tiles.Piece) tiles.Piece
	named    map[string]int   // piece and day → row
	unnamed  map[string][]int // a day → rows without a name that are not matched yet
	added    Added
	problems tiles.Problems
}

func (in *intake) index() {
	in.named, in.unnamed = map[string]int{}, map[string][]int{}
	for i, r := range in.table.Rows {
		if r.Remark {
			continue
		}
		p, _ := in.piece(r)
		if p.ID != "" {
			in.named[nameKey(p)] = i
			continue
		}
		in.unnamed[p.Date] = append(in.unnamed[p.Date], i)
	}
}

func nameKey(p tiles.Piece) string { return strings.ToLower(p.ID) + "\n" + p.Date }

func wholeKey(p tiles.Piece) string { return strings.Join(cells(p), "\x00") }

func (in *intake) take(p tiles.Piece) {
	if wholeKey(p) == wholeKey(tiles.Piece{}) {
		return // only columns that are not the log's
	}
	i, known := in.named[nameKey(p)]
	if p.ID == "" || !known {
		i, known = in.shorter(p)
	}
	if !known {
		i = len(in.table.Rows)
	}
	if p.ID != "" {
		in.named[nameKey(p)] = i
	}
	if known {
		in.fill(i, p)
		return
	}
	in.append(p)
}

// mostAlike bounds the rows of one day that a row is held against.
const mostAlike = 2_000

// shorter finds the row without a name that says least less than the piece, and
// nothing else, and takes it as matched. One that says hardly anything could be
// any piece.
func (in *intake) shorter(p tiles.Piece) (row int, found bool) {
	full := cells(p)
	most, at := 0, -1
	days := []string{p.Date, ""}
	if p.Date == "" {
		days = days[:1]
	}
	for _, day := range days {
		waiting := in.unnamed[day]
		for n, i := range waiting[:min(len(waiting), mostAlike)] {
			old, _ := in.piece(in.table.Rows[i])
			if same := agreeing(cells(in.read(old)), full); same > most && (same > 3 || day != "" && same > 1 || same == saying(full)) {
				most, at, row, found = same, n, i, true
			}
		}
		if found {
			in.unnamed[day] = append(waiting[:at:at], waiting[at+1:]...)
			return row, true
		}
	}
	return 0, false
}

// agreeing is how many cells of a row say what a fuller one says; 0 where one
// says something else.
func agreeing(row, fuller []string) (same int) {
	for i, cell := range row {
		switch {
		case cell != "" && cell != fuller[i]:
			return 0
		case cell != "":
			same++
		}
	}
	return same
}

func saying(row []string) (count int) {
	for _, cell := range row {
		if cell != "" {
			count++
		}
	}
	return count
}

func (in *intake) append(p tiles.Piece) {
	var r table.Row
	for i, value := range cells(p) {
		if value != "" {
			r.Set(in.column(LogColumns[i]), value)
		}
	}
	in.table.Rows = append(in.table.Rows, r)
	in.added.New++
}

// column is where one of our columns stands; a log without it gets it.
func (in *intake) column(name string) int {
	i, ok := in.at[name]
	if !ok {
		i = in.table.AddColumn(name)
		in.at[name] = i
	}
	return i
}

// fill puts what is new of a piece into its row's empty cells.
func (in *intake) fill(row int, p tiles.Piece) {
	r := &in.table.Rows[row]
	old, _ := in.piece(*r)
	before, filled := cells(in.read(old)), false
	for i, value := range cells(p) {
		switch {
		case value == "" || value == before[i]:
		case before[i] == "":
			r.Set(in.column(LogColumns[i]), value)
			filled = true
		default:
			in.problems = append(in.problems, tiles.Problem{File: in.file, Line: p.Line,
				What: fmt.Sprintf("piece %s is in the log already, with %s %q where this row says %q", p.ID, LogColumns[i], before[i], value),
				Do:   "change " + LogFile + " by hand, or give the piece another name"})
			return
		}
	}
	if filled {
		in.added.Filled++
		return
	}
	in.added.Same++
}

// cells says a piece below LogColumns.
func cells(p tiles.Piece) []string {
	severity := ""
	if p.Severity > 0 {
		severity = strconv.Itoa(p.Severity)
	}
	return []string{
		p.ID, p.Date, p.Maker, p.Clay, p.Bisque, p.First, p.Second, strings.Join(p.More, "; "), p.How, p.Where, p.Foot,
		p.Load, p.Shelf, p.Result, strings.Join(p.Faults, "; "), string(p.Zone), severity, p.Note,
	}
}
