package bench

import (
	"fmt"
	"net/url"
	"strings"
	"time"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func piecesRoom() room {
	return room{path: "/pieces", name: "Pieces", file: "pieces", wall: true, show: (*Bench).showPieces}
}

// piecesPage is the log at a glance. It stands on the bench and not on the site,
// since a site is copied to anybody's host: what is not there cannot get out.
type piecesPage struct {
	Summary   string // "" = there is no piece yet
	NotLooked string // "" = all rows from phones were looked at
	Undated   string
	Tables    []tallyTable
	Faults    []faultRow
}

// tallyTable counts pieces by one thing; the first rows are shown, the rest folded.
type tallyTable struct {
	Title, By string
	Shown     []tallyRow
	More      []tallyRow
	MoreSays  string
}

// tallyRow is one of them, drawn as a bar.
type tallyRow struct {
	Name         string
	Says         string // beside the name
	Pieces       int
	Well, Faulty int
	Waiting      int
	Faults       string
	Bar          bar
}

// bar draws a row's pieces against the longest of its table, in hundredths.
type bar struct{ Well, Faulty, Waiting, FaultyAt, WaitingAt float64 }

// faultRow is a fault with its pieces.
type faultRow struct {
	Name   string
	Pieces int
	Link   link
}

// Reads are the files that the page is made from.
func (piecesPage) Reads() []string {
	return []string{record.LogFile, record.WaitingFile, content.GlazesCSV, content.GlazesYAML, content.GlazesXLSX, content.GlazesODS}
}

func (b *Bench) showPieces(a *asked) (any, error) {
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return nil, err
	}
	if r.Log.Len() == 0 {
		return piecesPage{}, nil
	}
	came, err := run.NotLookedAt(a.dir, r, time.Now())
	if err != nil {
		return nil, err
	}
	return newPiecesPage(r.Wall, logbook.Count(r.Log.Each(), r.Wall.Glazes), len(came)), nil
}

func newPiecesPage(w tiles.Wall, s logbook.Season, notLooked int) piecesPage {
	page := piecesPage{Summary: fmt.Sprintf("%s: %d came out well, %d with a fault, %d not out of the kiln yet", english.Count(s.All.Pieces, "piece", "pieces"), s.All.Well, s.All.Faulty, s.All.Waiting)}
	if notLooked > 0 {
		page.NotLooked = fmt.Sprintf("You have not looked at %s from phones yet.", english.Count(notLooked, "row", "rows"))
	}
	if s.Undated > 0 {
		page.Undated = fmt.Sprintf("%s no day, so that no week counts %s.", english.Count(s.Undated, "piece has", "pieces have"), english.Number(s.Undated, "it", "them"))
	}
	weeks, loads, glazes, pairs := tallyTable{Title: "By week", By: "Week of"}, tallyTable{Title: "By firing", By: "Load"}, tallyTable{Title: "By glaze", By: "Glaze"}, tallyTable{Title: "By pair", By: "Pair"}
	for _, one := range s.Weeks {
		weeks.add(one.Monday.Format("2 January 2006"), "", one.Tally)
	}
	for _, one := range s.Loads {
		loads.add(one.Name, "", one.Tally)
	}
	for _, one := range s.Glazes {
		glazes.add(glazeName(w, one.Code), fmt.Sprintf("1st on %d, 2nd on %d", one.Under, one.Over), one.Tally)
	}
	for _, one := range s.Pairs {
		pairs.add(w.Say(one.Pair), "", one.Tally)
	}
	for _, t := range []tallyTable{weeks, loads, glazes, pairs} {
		if len(t.Shown) > 0 {
			page.Tables = append(page.Tables, t.drawn())
		}
	}
	for _, word := range s.All.Words() {
		page.Faults = append(page.Faults, faultRow{word, s.All.Faults[word], link{Href: "/records?part=log&fault=" + url.QueryEscape(word), Text: "Every piece with " + word}})
	}
	return page
}

func glazeName(w tiles.Wall, code string) string {
	if g, ok := tiles.FindGlaze(w.Glazes, code); ok {
		return g.Name + " (" + g.Code + ")"
	}
	return code
}

func (t *tallyTable) add(name, says string, of logbook.Tally) {
	row := tallyRow{Name: name, Says: says, Pieces: of.Pieces, Well: of.Well, Faulty: of.Faulty, Waiting: of.Waiting}
	var faults []string
	for _, word := range of.Words() {
		faults = append(faults, fmt.Sprintf("%d %s", of.Faults[word], word))
	}
	row.Faults = strings.Join(faults, ", ")
	t.Shown = append(t.Shown, row)
}

// mostRows is how many rows of a table are seen at a glance.
const mostRows = 24

// drawn draws the bars, and folds what is more than a glance.
func (t tallyTable) drawn() tallyTable {
	longest := 1
	for _, r := range t.Shown {
		longest = max(longest, r.Pieces)
	}
	for i := range t.Shown {
		r := &t.Shown[i]
		wide := func(n int) float64 { return 100 * float64(n) / float64(longest) }
		r.Bar = bar{Well: wide(r.Well), Faulty: wide(r.Faulty), Waiting: wide(r.Waiting), FaultyAt: wide(r.Well), WaitingAt: wide(r.Well + r.Faulty)}
	}
	if len(t.Shown) > mostRows {
		t.Shown, t.More = t.Shown[:mostRows], t.Shown[mostRows:]
		t.MoreSays = fmt.Sprintf("%d more", len(t.More))
	}
	return t
}
