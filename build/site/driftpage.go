package site

import (
	"html/template"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/chart"
	"github.com/twodip/twodip/tiles/drift"
)

// DriftView is the page of the buckets against their tiles.
type DriftView struct {
	Frame
	Buckets  []BucketView // those to act on or to look at
	Untried  []string     // new batches without a re-test, one line each
	Quiet    []string     // the others, one line each
	Shifts   []string
	Notes    []string
	Controls []template.HTML
	SG       []template.HTML
}

// BucketView is one bucket.
type BucketView struct {
	Tiles   []tiles.Number // the tiles that were compared, each re-test and its own
	Heading string
	Says    []string
	Charts  []template.HTML
}

func (m *maker) driftView(d *drift.Report) DriftView {
	v := ViewDrift(d)
	v.Frame = m.frame(driftPath, "Buckets against their tiles", "teacher")
	return v
}

// ViewDrift lays out the buckets for a page, without the page's frame.
func ViewDrift(d *drift.Report) DriftView {
	v := DriftView{Notes: d.Notes, Shifts: d.SayShifts(), Controls: charts(d.Controls),
		Untried: d.Quiet(drift.Untried), Quiet: d.Quiet(drift.Matches, drift.Unknown), SG: charts(d.Gravities())}
	for _, b := range d.Buckets {
		if !b.Speaks() {
			continue
		}
		view := BucketView{Heading: b.Say(), Says: b.Words, Charts: charts(b.Series())}
		for _, r := range b.Retests {
			view.Tiles = append(view.Tiles, r.Own, r.Tile)
		}
		v.Buckets = append(v.Buckets, view)
	}
	return v
}

func charts(list []drift.Series) []template.HTML {
	var out []template.HTML
	for _, s := range list {
		out = append(out, template.HTML(chart.Individuals(s.Title, s.Unit, s.Chart, s.Target).SVG()))
	}
	return out
}
