package bench

import (
	"slices"
	"time"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func recordsRoom() room {
	return room{path: "/records", name: "Records", file: "records", wall: true, show: (*Bench).showRecords,
		does: map[string]does{
			"mix": (*Bench).addMix, "firing": (*Bench).addFiring, "piece": (*Bench).addPiece,
			"bring": (*Bench).bringLog, "match": (*Bench).matchLog, "unload": (*Bench).unload,
		},
		more: map[string]moreWays{"gravity": (*Bench).gravity}}
}

// recordsPage is one of the four parts of the records.
type recordsPage struct {
	Parts   []link
	Problem []string
	Mixes   *mixesPart
	Firings *firingsPart
	Log     *logPart
	Match   *matchPart
	Out     *outPart
	reads   []string
}

// Reads are the files that the part shows.
func (p recordsPage) Reads() []string { return p.reads }

// Script is what moves on the page.
func (recordsPage) Script() string { return "records.js" }

// recordParts are the parts, in the order of the work.
var recordParts = []link{
	{Href: "/records?part=mixes", Text: "Buckets"},
	{Href: "/records?part=firings", Text: "Firings"},
	{Href: "/records?part=log", Text: "Glazing log"},
	{Href: "/records?part=unload", Text: "Tiles unloaded"},
}

func recordsFrame(part string) recordsPage {
	page := recordsPage{Parts: slices.Clone(recordParts)}
	for i := range page.Parts {
		page.Parts[i].Current = page.Parts[i].Href == "/records?part="+part
	}
	return page
}

func (b *Bench) showRecords(a *asked) (any, error) {
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return nil, err
	}
	switch a.FormValue("part") {
	case "firings":
		return firingsPage(r, nil, nil), nil
	case "log":
		return b.logPage(a, r, nil, nil)
	case "unload":
		return outPage(r, a.FormValue("load")), nil
	}
	return mixesPage(r, nil, nil), nil
}

// today is the day on which something is written down.
func today() string { return time.Now().Format(time.DateOnly) }

// cellsTyped are the cells of a form, by our names of the columns.
func cellsTyped(a *asked, columns []string) record.Cells {
	row := record.Cells{}
	for _, name := range columns {
		if v := a.FormValue(name); v != "" {
			row[name] = v
		}
	}
	return row
}

// glazeChoice is a glaze in a list to choose from.
type glazeChoice struct {
	Code, Text string
	Chosen     bool
}

func glazeChoices(glazes []tiles.Glaze, chosen string) []glazeChoice {
	var out []glazeChoice
	for _, g := range glazes {
		if !g.Retired {
			out = append(out, glazeChoice{g.Code, g.Code + " " + g.Name, tiles.SameCode(g.Code, chosen)})
		}
	}
	return out
}

// retry shows a form again with what was typed and what is wrong.
func retry(dir folder.Folder, err error, page func(run.Records, []string) recordsPage) error {
	r, broken := run.LoadRecords(dir)
	if broken != nil {
		return broken
	}
	return again{page(r, sentences(err))}
}
