package sheet

import (
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles/chart"
	"github.com/twodip/twodip/tiles/trace"
)

// Trace writes what the faults in the log have in common: words first, numbers
// after, a chart, and what to look at.
func Trace(w io.Writer, job Job) (pages int, err error) {
	r := job.Trace
	if r == nil {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "Faults in the log", "What faulty pieces have in common. Not for the wall: it is about your students’ work.", false)
	if err != nil {
		return 0, err
	}
	f := s.flow()
	f.words(text, 0, 1.5, fmt.Sprintf("%d pieces with a result, %d of them without a fault.", r.Pieces, r.Good))
	if r.Comparable() {
		f.words(text, 0, 1.5, trace.Caveat)
	}
	for _, n := range r.Notes() {
		f.words(text, 0, 1, n)
	}
	for _, one := range r.Faults {
		f.fault(one, r.Comparable())
	}
	f.turn()
	return s.bind(w)
}

func (f *flow) fault(one trace.Fault, comparable bool) {
	f.heading(one.Heading(), 34) // with its first finding
	for _, s := range []string{one.SayZones(), nothing(one, comparable)} {
		if s != "" {
			f.words(text, 0, 1, s)
		}
	}
	var rows []chart.Row
	for _, found := range append(one.Found[:len(one.Found):len(one.Found)], one.Gone...) {
		rows = append(rows, chart.Row{Name: found.Name, Table: found.Table})
		f.finding(found)
	}
	if len(rows) > 0 {
		f.chart(chart.Rates("Share of pieces with "+one.Name+", and its 95 % interval", rows), 0.8)
	}
	if look := one.Word.Look(); look != "" {
		f.words(small, 0, 1, look)
	}
	if care := one.Word.Care; care != "" {
		tall := f.s.paraTall(f.s.body().w-8, text, care) + 6
		f.add(tall, 0, func(a area) { f.s.caution(area{a.x, a.y, a.w, 0}, care) })
	}
}

func nothing(one trace.Fault, comparable bool) string {
	if !comparable {
		return ""
	}
	return one.SayNothing()
}

// finding is the counts in bold, what else there is to say, the numbers small.
func (f *flow) finding(one trace.Finding) {
	f.words(text.heavy(), 3, 0.6, one.Words[0])
	for _, s := range one.Words[1:] {
		f.words(text, 3, 0.6, s)
	}
	f.words(small, 3, 2, one.Figures)
}
