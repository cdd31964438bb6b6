package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/record"
)

// sayBeside says what a person who holds the sheet must know beside it.
func (a *app) sayBeside(s sheet.Sheet, job sheet.Job) {
	if s.Name == "shelves" && len(job.Held) > 0 {
		a.step("%s left off the shelves; the sheet says why", many(len(job.Held), "piece is", "pieces are"))
	}
	if s.Name != "labels" {
		return
	}
	if off := a.mismatched(job.Wall); len(off) > 0 {
		a.step("%s what the buckets make now: %s (twodip drift says why)",
			many(len(off), "label is of a tile that no longer shows", "labels are of tiles that no longer show"), someNumbers(off))
	}
}

// mismatched lists the wall's own tiles that a bucket no longer matches; none
// where the records cannot be read, for labels are printed all the same.
func (a *app) mismatched(w tiles.Wall) []tiles.Number {
	batches, err := record.ReadBatches(a.folder(), w.Log.Dates)
	if err != nil {
		return nil
	}
	loads, err := record.ReadLoads(a.folder(), w.Log.Dates)
	if err != nil {
		return nil
	}
	return slices.Sorted(maps.Keys(drift.Compare(w, batches, loads).Mismatched(w)))
}

// someNumbers lists a few numbers and counts the rest.
func someNumbers(list []tiles.Number) string {
	const named = 10
	var words []string
	for i, n := range list {
		if i == named {
			words = append(words, fmt.Sprintf("and %d more", len(list)-named))
			break
		}
		words = append(words, n.String())
	}
	return strings.Join(words, ", ")
}
