package bench

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// mostPieces is how many pieces the page lists; the others are found by asking.
const mostPieces = 200

// logPart is the glazing log and a form for a piece.
type logPart struct {
	Typed   record.Cells
	First   []glazeChoice
	Second  []glazeChoice
	Ways    []string // of glazing
	Faults  []faultChoice
	Fault   string // only pieces with it are listed
	Pieces  []pieceRow
	All     int // pieces that were asked for; more than are listed
	Held    []string
	Summary string
}

// faultChoice is a fault by its picture, its word and what it looks like.
type faultChoice struct {
	Picture, Name, Sign string
	Chosen              bool
}

// pieceRow is a piece as the page lists it.
type pieceRow struct {
	tiles.Piece
	Glazes string
	Came   string
}

// logPage shows the log, only the pieces with a fault where one is asked for.
func (b *Bench) logPage(a *asked, r run.Records, typed record.Cells, wrong []string) (recordsPage, error) {
	page := recordsFrame("log")
	page.Problem, page.reads = wrong, []string{record.LogFile}
	did, err := run.Log(a.dir, nil)
	if err != nil {
		return page, err
	}
	if typed == nil {
		typed = record.Cells{"date": today()}
	}
	part := &logPart{Typed: typed, First: glazeChoices(r.Wall.Glazes, typed["first"]), Second: glazeChoices(r.Wall.Glazes, typed["second"]),
		Ways: []string{"dipped", "poured"}, Fault: a.URL.Query().Get("fault"), Held: did.SayHeld(), Summary: did.Summary(false)}
	if r.Wall.Dip.Brush {
		part.Ways = append(part.Ways, "brushed")
	}
	for _, w := range logbook.Words {
		part.Faults = append(part.Faults, faultChoice{themes.FaultPicture(w.Name), w.Name, w.Sign, w.Name == typed["faults"]})
	}
	part.Pieces, part.All = piecesOf(r, part.Fault)
	page.Log = part
	return page, nil
}

// piecesOf lists the newest pieces of the log, those with a fault where one is named.
func piecesOf(r run.Records, fault string) (rows []pieceRow, all int) {
	clerk := logbook.NewClerk(r.Wall.Glazes)
	for p := range r.Log.Each() {
		p = clerk.Piece(p)
		if fault != "" && !slices.Contains(p.Faults, fault) {
			continue
		}
		row := pieceRow{Piece: p, Glazes: r.Wall.Say(p.Pair), Came: "waits"}
		if logbook.Opened(p) {
			row.Came = "good"
		}
		if len(p.Faults) > 0 {
			row.Came = strings.Join(p.Faults, ", ")
		}
		rows = append(rows, row)
	}
	all = len(rows)
	slices.Reverse(rows)
	return rows[:min(len(rows), mostPieces)], all
}

// addPiece writes down a piece, by the verb that takes a table's rows.
func (b *Bench) addPiece(a *asked) (string, error) {
	row := cellsTyped(a, record.LogColumns)
	rows, err := oneRow("the piece you typed", row)
	if err != nil {
		return "", err
	}
	did, err := run.Log(a.dir, []run.Rows{rows})
	if err == nil && row["first"] == "" {
		err = tiles.Problem{File: record.LogFile, What: "no first glaze is chosen", Do: "choose the glaze that went on the bisque"}
	}
	if err != nil {
		return "", b.retryLog(a, row, err)
	}
	return b.loggedNote(did), nil
}

func (b *Bench) retryLog(a *asked, row record.Cells, wrong error) error {
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return err
	}
	page, err := b.logPage(a, r, row, sentences(wrong))
	if err != nil {
		return err
	}
	return again{page}
}

// loggedNote says what log did, as the command says it.
func (b *Bench) loggedNote(did run.Logged) string {
	said := note{Said: append(did.Say(), did.Summary(true)), Next: &link{Href: "/faults", Text: "See what went wrong"}}
	if len(said.Said) > mostSaid {
		more := len(said.Said) - mostSaid
		said.Said = append(said.Said[:mostSaid-1:mostSaid-1], fmt.Sprintf("… and %d more sentences like these", more), did.Summary(true))
	}
	return b.notes.leave("/records?part=log", said)
}

// mostSaid bounds the sentences of a note.
const mostSaid = 30

// oneRow is a table of one row.
func oneRow(name string, row record.Cells) (run.Rows, error) {
	var head, cells []string
	for _, column := range record.LogColumns {
		if row[column] != "" {
			head, cells = append(head, column), append(cells, row[column])
		}
	}
	if row["first"] == "" {
		head, cells = append(head, "first"), append(cells, "")
	}
	var text bytes.Buffer
	w := csv.NewWriter(&text)
	if err := w.WriteAll([][]string{head, cells}); err != nil {
		return run.Rows{}, err
	}
	return rowsIn(name, text.Bytes()), nil
}

func rowsIn(name string, text []byte) run.Rows {
	return run.Rows{Name: name, Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(text)), nil }}
}
