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

	waiting int // of what waits, so much is in keys and ids
}

// Take puts rows below the log and says what each piece is called: the rows
// that were there stay byte for byte, and a key that is there already gets the
// piece that it had. Errors are tiles.Problems, and then nothing is written.
func (d *Desk) Take(dir folder.Folder, s tiles.LogSettings, arrived []Arrival) (called []string, err error) {
	if err := Fold(dir, s); err != nil {
		return nil, err
	}
	if err := d.look(dir, s); err != nil {
		return nil, err
	}
	called, fresh, err := d.name(arrived)
	if err != nil || len(fresh) == 0 {
		return called, err
	}
	var rows []table.Row
	for _, c := range fresh {
		rows = append(rows, arrivedRow(d.table, d.at, c))
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

// PutBy is Take while a command has the wall: the rows wait for the log, and what
// is said of them stays true. Only the holder of the desk may.
func (d *Desk) PutBy(dir folder.Folder, s tiles.LogSettings, arrived []Arrival) (called []string, err error) {
	if err := d.look(dir, s); err != nil {
		return nil, err
	}
	called, fresh, err := d.name(arrived)
	if err != nil || len(fresh) == 0 {
		return called, err
	}
	if err := wait(dir, fresh...); err != nil {
		d.text = nil // its keys are in no file
		return nil, err
	}
	d.waiting += len(fresh)
	return called, nil
}

// name gives each piece what it is called: fresh are the rows of those whose
// keys are not known yet.
func (d *Desk) name(arrived []Arrival) (called []string, fresh []Cells, err error) {
	for _, a := range arrived {
		id, known := d.keys[a.Key]
		if !known {
			if err := mayGrow(d.rows); err != nil {
				d.text = nil // what it noted of this group is not in the file
				return nil, nil, err
			}
			id = d.call(a.Piece.ID)
			d.keys[a.Key], d.rows = id, d.rows+1
			a.Piece.ID = id
			fresh = append(fresh, a.cells())
		}
		called = append(called, id)
	}
	return called, fresh, nil
}

// Called is the piece with the key.
func (d *Desk) Called(dir folder.Folder, s tiles.LogSettings, key string) (id string, known bool) {
	if err := d.look(dir, s); err != nil {
		return "", false
	}
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

// look reads what waits and the log, unless it is the very text that is known.
func (d *Desk) look(dir folder.Folder, s tiles.LogSettings) error {
	waits, err := waiting(dir) // first: what is taken up meanwhile is in the log
	if err != nil {
		return err
	}
	if len(waits) < d.waiting {
		d.text = nil // taken up, or taken away
	}
	t, text, err := d.readAgain(dir)
	if err != nil {
		return err
	}
	if t != nil {
		if err := d.index(t, text, s); err != nil {
			return err
		}
	}
	for _, c := range waits[min(d.waiting, len(waits)):] {
		if _, known := d.keys[c[KeyColumn]]; !known && c[KeyColumn] != "" {
			d.note(c["piece"], c[KeyColumn])
		}
	}
	d.waiting = len(waits)
	return nil
}

// index notes the keys and numbers of the log.
func (d *Desk) index(t *table.Table, text []byte, s tiles.LogSettings) error {
	l, err := newLog(t, s)
	if err != nil {
		return err
	}
	*d = Desk{text: text, at: l.at, keys: map[string]string{}, ids: map[string]bool{}}
	key := t.Column(KeyColumn)
	for _, r := range t.Data() {
		d.note(l.cell(r, "piece"), r.Cell(key))
	}
	t.Rows = nil
	d.table = t
	return nil
}

func (d *Desk) note(id, key string) {
	d.rows++
	d.ids[strings.ToLower(id)] = true
	d.last = max(d.last, pieceNumber(id))
	if key != "" {
		d.keys[key] = id
	}
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

// cells are those of a row that nobody has looked at.
func (a Arrival) cells() Cells {
	c := Cells{LookedColumn: NotLooked, KeyColumn: a.Key}
	for i, value := range cells(a.Piece) {
		c[LogColumns[i]] = value
	}
	return c
}
