package sheet

import (
	"io"

	"github.com/twodip/twodip/tiles/chart"
	"github.com/twodip/twodip/tiles/drift"
)

// Drift writes every bucket against the wall's own tiles, with its charts.
func Drift(w io.Writer, job Job) (pages int, err error) {
	d := job.Drift
	if d == nil || d.Empty() {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "Buckets against their tiles", "Each bucket’s re-tests compared with the original tile. A change that the controls show too is the firing’s and is taken off.", false)
	if err != nil {
		return 0, err
	}
	f := s.flow()
	for _, n := range d.Notes {
		f.words(text, 0, 1.5, n)
	}
	for _, b := range d.Buckets {
		if !b.Speaks() {
			continue
		}
		f.heading(b.Say(), 12)
		for _, say := range b.Words {
			f.words(text, 0, 0.8, say)
		}
		f.charts(b.Series())
	}
	f.list("New batches without a re-test: the wall’s tiles were made from another", d.Quiet(drift.Untried))
	f.list("Nothing to do", d.Quiet(drift.Matches, drift.Unknown))
	f.list("Loads, by their controls", d.SayShifts())
	f.charted("Controls over the loads", d.Controls)
	f.charted("Specific gravities", d.Gravities())
	f.words(small, 0, 1, "Limits of a color stand at the mean ± 2.66 mean ranges; those of a specific gravity at the glaze’s own target ± 0.02. A point beyond them asks to act; a ringed point inside them only asks to look.")
	f.turn()
	return s.bind(w)
}

func (f *flow) charts(list []drift.Series) {
	for _, s := range list {
		f.chart(chart.Individuals(s.Title, s.Unit, s.Chart, s.Target), 0.8)
	}
}

func (f *flow) charted(title string, list []drift.Series) {
	if len(list) > 0 {
		f.heading(title, 60)
		f.charts(list)
	}
}

func (f *flow) list(title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	f.heading(title, 6)
	for _, l := range lines {
		f.words(text, 0, 0.4, l)
	}
}
