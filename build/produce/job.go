package produce

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/run"
)

// prepare reads the wall and what every sheet needs of it, and names every
// glaze whose name holds a letter that cannot be printed.
func (p *press) prepare(ctx context.Context) error {
	r, err := p.records()
	if err != nil {
		return err
	}
	wall := r.Wall
	if p.wish.Start > 0 {
		wall.Labels.Start = p.wish.Start
	}
	p.job = sheet.Job{Wall: wall, Date: p.wish.Date, Door: doorAddress(p.dir), List: glazeList(p.dir), Stopped: ctx.Err, Say: func(s string) { p.did.Hints = append(p.did.Hints, s) }}
	if p.wish.New {
		p.job.New = newest(wall.Tiles)
	}
	if r.Log != nil {
		p.addRecords(r)
	}
	if p.job.Font, err = labelFont(p.dir, wall.Labels.Font); err != nil {
		return err
	}
	lacks, err := sheet.Lacks(wall.Glazes, p.job.Font)
	for _, l := range lacks {
		p.did.Warnings = append(p.did.Warnings, unprintable(p.job.List, l))
	}
	return err
}

// records reads the wall, and its records where a sheet shows them. A record
// that cannot be read stops only what was asked for by name; without names the
// rest is printed, and what is wrong is said.
func (p *press) records() (run.Records, error) {
	wall, err := run.Load(p.dir)
	if err != nil || !slices.ContainsFunc(p.sheets, showsRecords) {
		return run.Records{Wall: wall}, err
	}
	for _, c := range run.Copies(p.dir) {
		p.did.Hints = append(p.did.Hints, c.Error())
	}
	r, err := run.LoadRecords(p.dir)
	if err != nil && !p.named() {
		var ps run.Problems
		ps.Add(err)
		p.did.Warnings = append(p.did.Warnings, ps.Found...)
		p.did.Hints = append(p.did.Hints, "printed without the faults, the buckets and the pieces of the log")
		return run.Records{Wall: wall}, nil
	}
	return r, err
}

// showsRecords says that a sheet needs the log, the buckets and the firings.
// The others are printed even where those cannot be read.
func showsRecords(s sheet.Sheet) bool {
	return s.Name == "trace" || s.Name == "drift" || s.Name == "shelves"
}

// addRecords gives the sheets what the records say: faults, buckets, and the
// pieces that wait for the kiln, without those that must not go in.
func (p *press) addRecords(r run.Records) {
	d := r.Drift()
	p.job.Drift = &d
	if r.Log.Len() == 0 {
		return
	}
	report := r.Trace()
	p.job.Trace = &report
	ruled, _ := run.Verdicts(r.Wall)
	p.job.Pieces, p.job.Held = logbook.Waiting(r.Wall, r.Log.Each(), ruled)
}

// newest is the tiles still to be made that the latest round of plan added.
func newest(ts []tiles.Tile) sheet.Numbers {
	fresh := sheet.Numbers{}
	for _, t := range plan.New(ts) {
		fresh[t.Number] = true
	}
	return fresh
}

// beside is what a person who holds the sheet must know beside it.
func (p *press) beside(s sheet.Sheet) []string {
	if n := len(p.job.Held); s.Name == "shelves" && n > 0 {
		return []string{english.Count(n, "piece is", "pieces are") + " left off the shelves; the sheet says why"}
	}
	if s.Name != "labels" {
		return nil
	}
	off := p.mismatched()
	if len(off) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%s what the buckets make now: %s (drift says why)",
		english.Count(len(off), "label is of a tile that no longer shows", "labels are of tiles that no longer show"), someNumbers(off))}
}

// mismatched lists the wall's own tiles that a bucket no longer matches; none
// where the records cannot be read, for labels are printed all the same.
func (p *press) mismatched() []tiles.Number {
	r := run.Records{Wall: p.job.Wall}
	if r.ReadBuckets(p.dir) != nil {
		return nil
	}
	return slices.Sorted(maps.Keys(r.Drift().Mismatched(r.Wall)))
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
