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
// a row without a name is the same where every cell is. A cell that would have
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
	named    map[string]int // piece and day → row
	unnamed  map[string]int // a whole row → how many of the log are not matched yet
	added    Added
	problems tiles.Problems
}

func (in *intake) index() {
	in.named, in.unnamed = map[string]int{}, map[string]int{}
	for i, r := range in.table.Rows {
		if r.Remark {
			continue
		}
		p, _ := in.piece(r)
		if p.ID != "" {
			in.named[nameKey(p)] = i
			continue
		}
		in.unnamed[wholeKey(in.read(p))]++
	}
}

func nameKey(p tiles.Piece) string { return strings.ToLower(p.ID) + "\n" + p.Date }

func wholeKey(p tiles.Piece) string { return strings.Join(cells(p), "\x00") }

func (in *intake) take(p tiles.Piece) {
	if wholeKey(p) == wholeKey(tiles.Piece{}) {
		return // only columns that are not the log's
	}
	if p.ID == "" {
		if k := wholeKey(p); in.unnamed[k] > 0 {
			in.unnamed[k]--
			in.added.Same++
			return
		}
		in.append(p)
		return
	}
	if i, ok := in.named[nameKey(p)]; ok {
		in.fill(i, p)
		return
	}
	in.named[nameKey(p)] = len(in.table.Rows)
	in.append(p)
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
