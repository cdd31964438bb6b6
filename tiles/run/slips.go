package run

import (
	"fmt"
	"maps"
	"regexp"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
)

// slips are words and numbers in the records that match nothing the wall has,
// a sentence each.
func slips(r Records, list string) []string {
	out := strangeLoads(r)
	if len(r.Wall.Glazes) > 0 { // a list that cannot be read knows no glaze at all
		out = slices.Concat(unlisted(r.Wall), failedNames(r.Wall.Glazes, list), strangeCones(r.Wall, list), strangeBatches(r), out, strangeWords(r))
	}
	return out
}

// failedName is what a spreadsheet shows in place of a formula's result: the
// error values of ECMA-376 part 1, 18.17.3.
var failedName = regexp.MustCompile(`^#(REF!|N/A|NAME\?|VALUE!|DIV/0!|NUM!|NULL!)$`)

func failedNames(glazes []tiles.Glaze, list string) []string {
	var out []string
	for _, g := range glazes {
		if failedName.MatchString(g.Name) || failedName.MatchString(g.Code) {
			out = append(out, fmt.Sprintf("%s:%d: glaze %s is named %s: a formula failed in the spreadsheet; write the name itself", list, g.Line, g.Code, g.Name))
		}
	}
	return out
}

// strangeCones says which glazes of the list, a file, are for no cone there is,
// or not for the wall's.
func strangeCones(w tiles.Wall, list string) []string {
	var out, apart []string
	for _, g := range w.Glazes {
		where := fmt.Sprintf("%s:%d: ", list, g.Line)
		switch {
		case g.Cone == "" || g.Retired || w.Cone == "": // settings that cannot be read have none
		case madeDate.MatchString(g.Cone):
			out = append(out, fmt.Sprintf("%scone %q is a date that a spreadsheet made; format the column as text and write the cone again, like 5-6", where, g.Cone))
		case !content.IsCone(g.Cone):
			out = append(out, fmt.Sprintf("%s%q is no cone; write it as it stands on the cone, like 6, 06 or 5½", where, g.Cone))
		case !content.ConesMeet(g.Cone, w.Cone):
			apart = append(apart, fmt.Sprintf("%s%s is for cone %s, and the wall is fired to cone %s: test it in a dish before it goes on a shelf, or correct the cone", where, g.Name, g.Cone, w.Cone))
		}
	}
	if len(apart) > 3 {
		apart = []string{fmt.Sprintf("%s: %d glazes are for another cone than the wall, which is fired to cone %s: correct the cone in wall.yaml, or those in the list", list, len(apart), w.Cone)}
	}
	return append(out, apart...)
}

// strangeBatches says which batches are of glazes that neither the list nor the
// plan has.
func strangeBatches(r Records) []string {
	planned := map[string]bool{}
	for _, t := range r.Wall.Tiles {
		planned[tiles.CodeKey(t.First)], planned[tiles.CodeKey(t.Second)] = true, true
	}
	var out []string
	for _, b := range r.Batches {
		if _, ok := tiles.FindGlaze(r.Wall.Glazes, b.Glaze); !ok && !planned[tiles.CodeKey(b.Glaze)] {
			out = append(out, fmt.Sprintf("%s:%d: no glaze has the code %s; write the code as the glaze list has it", record.BatchesFile, b.Line, b.Glaze))
		}
	}
	return out
}

// madeDate is what spreadsheets make of 5-6: a day of a month.
var madeDate = regexp.MustCompile(`(?i)^(\d{1,2}[-/. ](jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*|(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-/. ]\d{1,2}|\d{4}-\d\d-\d\d)$`)

// strangeLoads says which firings name a load that the plan has not, or a cone
// that is none.
func strangeLoads(r Records) []string {
	last := 0
	for _, t := range r.Wall.Tiles {
		last = max(last, t.Load)
	}
	var out []string
	for _, l := range r.Loads {
		where := fmt.Sprintf("%s:%d: ", record.LoadsFile, l.Line)
		if l.Tiles > last && last > 0 {
			out = append(out, fmt.Sprintf("%stiles is load %d, and the plan has %d; write the load whose tiles were in this firing", where, l.Tiles, last))
		}
		for _, shelf := range slices.Sorted(maps.Keys(l.Cones)) {
			switch cone := l.Cones[shelf]; {
			case madeDate.MatchString(cone):
				out = append(out, fmt.Sprintf("%scone %q is a date that a spreadsheet made; format the column as text and write the cone again, like 5-6", where, cone))
			case !content.IsCone(cone):
				out = append(out, fmt.Sprintf("%s%q is no cone; write it as it stands on the cone, like 6, 06 or 5½", where, cone))
			}
		}
	}
	return out
}

// mostStrange is how many unknown words of a log are said one by one.
const mostStrange = 20

// strangeWords says which glazes and faults of the log match nothing.
func strangeWords(r Records) []string {
	if r.Log == nil {
		return nil
	}
	clerk := logbook.NewClerk(r.Wall.Glazes)
	for p := range r.Log.Each() {
		clerk.Piece(p)
	}
	var out []string
	unknown := clerk.Unknown()
	for _, u := range unknown[:min(len(unknown), mostStrange)] {
		out = append(out, fmt.Sprintf("%s: %s (%s)", record.LogFile, u.Say(), u.Where()))
	}
	if more := len(unknown) - mostStrange; more > 0 {
		out = append(out, fmt.Sprintf("%s: %d more words like these", record.LogFile, more))
	}
	return out
}

// samePhotos says which photos are one file under two names: each counts as a
// photo of its own tile. Only those of one size are read.
func samePhotos(dir folder.Folder, photos []string) []string {
	bySize := map[int64][]string{}
	for _, name := range photos {
		if info, err := dir.Info(folder.Photos + "/" + name); err == nil {
			bySize[info.Size()] = append(bySize[info.Size()], name)
		}
	}
	first := map[string]string{}
	var out []string
	for _, name := range photos {
		info, err := dir.Info(folder.Photos + "/" + name)
		if err != nil || len(bySize[info.Size()]) < 2 {
			continue
		}
		data, err := dir.ReadPhoto(name)
		if err != nil {
			continue // said where it is read
		}
		sum := measure.Sum(data)
		if of := first[sum]; of != "" {
			out = append(out, fmt.Sprintf("%s/%s is the same picture file as %s: keep the one whose name is right", folder.Photos, name, of))
			continue
		}
		first[sum] = name
	}
	return out
}
