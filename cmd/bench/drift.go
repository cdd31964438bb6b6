package bench

import (
	"html/template"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func driftRoom() room {
	return room{path: "/drift", name: "Drift", file: "drift", wall: true, show: (*Bench).showDrift}
}

// driftPage is the buckets against their tiles, as drift says it.
type driftPage struct {
	Summary  string
	Next     link // Text "" = there is nothing to do
	Notes    []string
	Buckets  []bucketPart
	Untried  []string
	Quiet    []string
	Shifts   []string
	Controls []template.HTML
	SG       []template.HTML
}

// Reads are the files that the page is made from.
func (driftPage) Reads() []string {
	return []string{record.BatchesFile, record.LoadsFile, record.PlanFile, record.MeasuredFile, "content/glazes.csv", "content/glazes.yaml"}
}

func (b *Bench) showDrift(a *asked) (any, error) {
	d, err := run.Drift(a.dir)
	if err != nil {
		return nil, err
	}
	v := site.ViewDrift(&d)
	page := driftPage{Summary: d.Summary(), Next: driftNext(d), Notes: v.Notes, Untried: v.Untried, Quiet: v.Quiet, Shifts: v.Shifts, Controls: v.Controls, SG: v.SG}
	for _, bucket := range v.Buckets {
		page.Buckets = append(page.Buckets, bucketPart{bucket.Heading, bucket.Says, bucket.Charts, b.tilePages(a, bucket)})
	}
	return page, nil
}

// driftNext is what to do about it first.
func driftNext(d drift.Report) link {
	count := d.Count()
	switch {
	case count[drift.Changed] > 0:
		return link{Href: "/plan", Text: "Let the plan number their tiles again"}
	case count[drift.Unclear] > 0:
		return link{Href: "/sheets", Text: "Print the mat for two tiles, and photograph each re-test beside its tile on it"}
	case count[drift.Untried] > 0:
		return link{Href: "/plan", Text: "Let the plan number the re-tests"}
	}
	return link{}
}
