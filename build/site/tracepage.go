package site

import (
	"fmt"
	"html/template"

	"github.com/twodip/twodip/tiles/chart"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/trace"
)

// Teacher is what only the teacher's own copy of the site shows.
type Teacher struct {
	Trace *trace.Report // nil = no log
	Drift *drift.Report
}

// tracePath and driftPath are the teacher's two pages below the site.
const (
	tracePath = "trace.html"
	driftPath = "drift.html"
)

// TraceView is the page of the faults in the log.
type TraceView struct {
	Frame
	Summary string
	Notes   []string
	Read    []string // liberties taken in reading the log
	Faults  []FaultView
	Caveat  string
}

// FaultView is one fault.
type FaultView struct {
	Name    string // the fault's word
	Heading string
	Says    []string // where it sat, why nothing is named
	Look    string   // sign and first check; "" = a word of the studio's own
	Care    string
	Chart   template.HTML // "" = nothing to draw
	Found   []FindingView
}

// FindingView is one suspect: the counts, what else there is to say, the numbers.
type FindingView struct {
	Counts  string
	Says    []string
	Figures string
}

// teacherNav is the links to the teacher's pages.
func (m *maker) teacherNav() []Link {
	var links []Link
	if m.Teacher == nil {
		return nil
	}
	if m.Teacher.Trace != nil {
		links = append(links, Link{Href: tracePath, Text: "Faults"})
	}
	if m.Teacher.Drift != nil {
		links = append(links, Link{Href: driftPath, Text: "Buckets"})
	}
	if m.Foresee != nil {
		links = append(links, Link{Href: guessPath, Text: "Guesses"})
	}
	return links
}

// teacherPages makes the pages that the public site never has.
func (m *maker) teacherPages() error {
	if m.Teacher == nil {
		return nil
	}
	if err := m.guessPage(); err != nil {
		return err
	}
	if r := m.Teacher.Trace; r != nil {
		if err := m.page(tracePath, "trace.html", m.traceView(r)); err != nil {
			return err
		}
	}
	if d := m.Teacher.Drift; d != nil {
		return m.page(driftPath, "drift.html", m.driftView(d))
	}
	return nil
}

func (m *maker) traceView(r *trace.Report) TraceView {
	v := ViewTrace(r)
	v.Frame = m.frame(tracePath, "Faults in the log", "teacher")
	return v
}

// ViewTrace lays out a trace for a page, without the page's frame.
func ViewTrace(r *trace.Report) TraceView {
	v := TraceView{Notes: r.Notes(), Read: r.Read,
		Summary: fmt.Sprintf("%d pieces with a result, %d of them without a fault.", r.Pieces, r.Good)}
	if r.Comparable() {
		v.Caveat = trace.Caveat
	}
	for _, f := range r.Faults {
		v.Faults = append(v.Faults, faultView(f, r.Comparable()))
	}
	return v
}

func faultView(f trace.Fault, comparable bool) FaultView {
	v := FaultView{Name: f.Name, Heading: f.Heading(), Care: f.Word.Care, Look: f.Word.Look()}
	if where := f.SayZones(); where != "" {
		v.Says = append(v.Says, where)
	}
	if nothing := f.SayNothing(); nothing != "" && comparable {
		v.Says = append(v.Says, nothing)
	}
	var rows []chart.Row
	for _, one := range append(f.Found[:len(f.Found):len(f.Found)], f.Gone...) {
		rows = append(rows, chart.Row{Name: one.Name, Table: one.Table})
		v.Found = append(v.Found, FindingView{Counts: one.Words[0], Says: one.Words[1:], Figures: one.Figures})
	}
	if len(rows) > 0 {
		v.Chart = template.HTML(chart.Rates("Pieces with "+f.Name, rows).SVG())
	}
	return v
}
