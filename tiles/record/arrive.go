package record

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// Columns of a log for rows that came from a phone, behind those of the log.
const (
	LookedColumn = "looked at" // NotLooked until the teacher has, then Looked
	KeyColumn    = "phone key" // made on the phone, so that a row sent twice is one

	NotLooked = "not yet"
	Looked    = "yes"
)

// Arrival is a piece that came from a phone.
type Arrival struct {
	Key   string
	Piece tiles.Piece // its ID is a wish: another row may have it
}

// Desk is where rows from phones are taken into tiles/log.csv. It remembers
// which keys and numbers the log has, for as long as nobody else changes it.
// Only the holder of the wall's lock may use it, one at a time.
type Desk struct {
	text  []byte
	table *table.Table // its headings
	at    map[string]int
	keys  map[string]string // key → piece
	ids   map[string]bool   // in lower case
	last  int               // the largest number a piece has
	rows  int
}

// Take puts rows below the log and says what each piece is called: the rows
// that were there stay byte for byte, and a key that is there already gets the
// piece that it had. Errors are tiles.Problems, and then nothing is written.
func (d *Desk) Take(dir folder.Folder, s tiles.LogSettings, arrived []Arrival) (called []string, err error) {
	if err := d.look(dir, s); err != nil {
		return nil, err
	}
	var rows []table.Row
	for _, a := range arrived {
		id, known := d.keys[a.Key]
		if !known {
			if err := mayGrow(d.rows); err != nil {
				d.text = nil // what it noted of this group is not in the file
				return nil, err
			}
			id = d.call(a.Piece.ID)
			d.keys[a.Key], d.rows = id, d.rows+1
			a.Piece.ID = id
			rows = append(rows, d.row(a))
		}
		called = append(called, id)
	}
	if len(rows) == 0 {
		return called, nil
	}
	grown, err := d.table.Grown(d.text, rows)
	if err == nil {
		err = dir.WriteBytes(LogFile, grown)
	}
	if err != nil {
		d.text = nil // its keys are not in the file
		return nil, err
	}
	d.text = grown
	return called, nil
}

// Called is the piece with the key, as far as the log was last read.
func (d *Desk) Called(key string) (id string, known bool) {
	id, known = d.keys[key]
	return id, known
}

// MostRows bounds a log that phones may still add to; people may by hand.
const MostRows = 20_000

// ErrFull says that the log takes no more rows from phones.
type ErrFull struct{ tiles.Problem }

func mayGrow(rows int) error {
	if rows < MostRows {
		return nil
	}
	return ErrFull{tiles.Problem{File: LogFile, What: fmt.Sprintf("holds %d pieces, and phones add no more", rows), Do: "put the rows of past years into a file of their own"}}
}

// look reads the log, unless it is the very text that is known.
func (d *Desk) look(dir folder.Folder, s tiles.LogSettings) error {
	t, text, err := d.readAgain(dir)
	if err != nil || t == nil {
		return err
	}
	l, err := newLog(t, s)
	if err != nil {
		return err
	}
	now := Desk{text: text, at: l.at, keys: map[string]string{}, ids: map[string]bool{}}
	key := t.Column(KeyColumn)
	for _, r := range t.Data() {
		id := l.cell(r, "piece")
		now.rows++
		now.ids[strings.ToLower(id)] = true
		now.last = max(now.last, pieceNumber(id))
		if k := r.Cell(key); k != "" {
			now.keys[k] = id
		}
	}
	t.Rows = nil
	now.table = t
	*d = now
	return nil
}

// readAgain reads the log; t is nil where it is as it was.
func (d *Desk) readAgain(dir folder.Folder) (t *table.Table, text []byte, err error) {
	if d.text != nil {
		text, err = dir.Read(LogFile, mostText)
		if err == nil && bytes.Equal(text, d.text) {
			return nil, nil, nil
		}
	}
	return readText(dir, LogFile, LogColumns)
}

// mostDigits of a piece's name may be counted on from.
const mostDigits = 6

func pieceNumber(id string) int {
	n, err := strconv.Atoi(id)
	if err != nil || len(id) > mostDigits || n < 0 {
		return 0
	}
	return n
}

// call is what a piece will be called: as wished, where no other is called so
// and it is no number, or else the next number.
func (d *Desk) call(wish string) string {
	if wish != "" && !d.ids[strings.ToLower(wish)] && pieceNumber(wish) == 0 {
		d.ids[strings.ToLower(wish)] = true
		return wish
	}
	d.last++
	id := strconv.Itoa(d.last)
	d.ids[id] = true
	return id
}

func (d *Desk) row(a Arrival) table.Row {
	var r table.Row
	for i, value := range cells(a.Piece) {
		if value != "" {
			r.Set(d.column(LogColumns[i]), value)
		}
	}
	r.Set(d.table.AddColumn(LookedColumn), NotLooked)
	r.Set(d.table.AddColumn(KeyColumn), a.Key)
	return r
}

func (d *Desk) column(name string) int {
	i, ok := d.at[name]
	if !ok {
		i = d.table.AddColumn(name)
		d.at[name] = i
	}
	return i
}
