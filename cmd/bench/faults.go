package bench

import (
	"fmt"
	"html/template"
	"net/url"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func faultsRoom() room {
	return room{path: "/faults", name: "What went wrong", file: "faults", wall: true, show: (*Bench).showFaults}
}

// faultsPage is what the pieces with a fault have in common, as trace says it.
type faultsPage struct {
	Summary string // "" = there is no piece yet
	Notes   []string
	Read    []string
	Faults  []faultPart
	Caveat  string
}

// faultPart is one fault.
type faultPart struct {
	site.FaultView
	Pieces link
}

// Reads are the files that the page is made from.
func (faultsPage) Reads() []string {
	return []string{record.LogFile, record.BatchesFile, record.LoadsFile, "content/glazes.csv", "content/glazes.yaml"}
}

func (b *Bench) showFaults(a *asked) (any, error) {
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return nil, err
	}
	if r.Log.Len() == 0 {
		return faultsPage{}, nil
	}
	report := r.Trace()
	v := site.ViewTrace(&report)
	page := faultsPage{Summary: report.Summary(), Notes: v.Notes, Read: v.Read, Caveat: v.Caveat}
	for _, f := range v.Faults {
		page.Faults = append(page.Faults, faultPart{f, link{Href: "/records?part=log&fault=" + url.QueryEscape(f.Name), Text: "Every piece with " + f.Name}})
	}
	return page, nil
}

// tilePages are the built site's pages of tiles: pair, photo, reading.
func (b *Bench) tilePages(a *asked, v site.BucketView) []link {
	if !a.dir.Has("build/site/index.html") {
		return nil
	}
	var out []link
	for _, n := range v.Tiles {
		page := fmt.Sprintf("tile/%d.html", n)
		if a.dir.Has("build/site/" + page) {
			out = append(out, link{Href: b.view.at(a.dir, page), Text: fmt.Sprintf("Tile %d and its photo", n)})
		}
	}
	return out
}

// bucketPart is one bucket that asks for something.
type bucketPart struct {
	Heading string
	Says    []string
	Charts  []template.HTML
	Tiles   []link
}
