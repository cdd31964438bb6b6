package bench

import (
	"html/template"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/chart"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/table"
)

// mixesPart is the bucket record and a form for a mix.
type mixesPart struct {
	Glazes []glazeChoice
	Typed  record.Cells
	Target string        // of the chosen glaze, in words
	Chart  template.HTML // of the chosen glaze
	Mixes  []tiles.Batch // the newest first
}

// mixesPage shows the buckets; typed is nil for an empty form.
func mixesPage(r run.Records, typed record.Cells, wrong []string) recordsPage {
	page := recordsFrame("mixes")
	page.Problem, page.reads = wrong, []string{record.BatchesFile, "content/glazes.csv", "content/glazes.yaml"}
	part := &mixesPart{Typed: typed, Mixes: slices.Clone(r.Batches)}
	slices.SortStableFunc(part.Mixes, func(a, b tiles.Batch) int { return strings.Compare(b.MixedOn, a.MixedOn) })
	if typed == nil {
		part.Typed = record.Cells{"mixed": today()}
	}
	part.Glazes = glazeChoices(r.Wall.Glazes, part.Typed["glaze"])
	part.Target, part.Chart = gravityChart(r, part.Typed)
	page.Mixes = part
	return page
}

func (b *Bench) addMix(a *asked) (string, error) {
	row := cellsTyped(a, record.BatchColumns)
	row["sg"] = asGravity(row["sg"])
	if row["glaze"] == "" {
		return "", retry(a.dir, tiles.Problem{File: record.BatchesFile, What: "no glaze is chosen for the mix", Do: "choose one"},
			func(r run.Records, wrong []string) recordsPage { return mixesPage(r, row, wrong) })
	}
	if err := run.AddBatch(a.dir, row); err != nil {
		return "", retry(a.dir, err, func(r run.Records, wrong []string) recordsPage { return mixesPage(r, row, wrong) })
	}
	said := note{Said: []string{row["glaze"] + ", batch " + row["batch"] + ", is written into " + record.BatchesFile + "."},
		Next: &link{Href: "/plan", Text: "See in the plan which tiles are due again"}}
	return b.notes.leave("/records?part=mixes", said), nil
}

// asGravity takes the grams of 100 ml for what they say: people read them off
// the scale.
func asGravity(typed string) string {
	if x, err := table.Number(typed); err == nil && x >= 100 && x <= 220 {
		return strconv.FormatFloat(x/100, 'f', -1, 64)
	}
	return typed
}

// gravity answers with the chart of a glaze as it would be with the mix that is
// being typed.
func (b *Bench) gravity(a *asked) error {
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return err
	}
	row := cellsTyped(a, record.BatchColumns)
	row["sg"] = asGravity(row["sg"])
	_, svg := gravityChart(r, row)
	a.w.Header().Set("Content-Type", "image/svg+xml; charset=utf-8")
	_, err = a.w.Write([]byte(svg))
	return err
}

// gravityChart is the chart of a glaze's specific gravities, with that of the
// row as the newest; "" where there is nothing to draw.
func gravityChart(r run.Records, row record.Cells) (target string, svg template.HTML) {
	g, ok := tiles.FindGlaze(r.Wall.Glazes, row["glaze"])
	if !ok {
		return "", ""
	}
	if g.SG > 0 {
		target = "The list says " + strconv.FormatFloat(g.SG, 'f', 2, 64) + " for " + g.Name + "."
	}
	if x, err := table.Number(row["sg"]); err == nil && x >= 1 && x <= 2.2 {
		r.Batches = append(slices.Clone(r.Batches), tiles.Batch{Glaze: g.Code, Name: "this mix", MixedOn: "9999-12-31", SG: x})
	}
	for _, bucket := range r.Drift().Buckets {
		if tiles.SameCode(bucket.Glaze, g.Code) && bucket.SG != nil {
			return target, drawn(*bucket.SG)
		}
	}
	return target, ""
}

func drawn(s drift.Series) template.HTML {
	return template.HTML(chart.Individuals(s.Title, s.Unit, s.Chart, s.Target).SVG())
}
