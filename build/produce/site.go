package produce

import (
	"context"
	"errors"
	"path/filepath"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/foresee"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// SiteWish is what a person asks build for.
type SiteWish struct {
	Teacher bool   // the teacher's copy, which is not for publishing
	Program string // tells this program from another that may make the site otherwise; "" = not known, all is made anew
	Tell    run.Tell
}

// Built is what build made.
type Built struct {
	Open string `json:"open"` // the file to open
	site.Report
	Remade int            `json:"-"` // photos whose pictures were made again
	Lost   tiles.Problems `json:"-"` // photos that leave a tile without a picture

	Stopped bool `json:"stopped,omitempty"` // the site is as it was before
}

// Site makes the site in build/site, or the teacher's copy in build/teacher.
// Where nothing has changed since the last time, or ctx is done before it is
// whole, it is left as it is.
func Site(ctx context.Context, dir folder.Folder, wish SiteWish) (Built, error) {
	if !dir.Has(content.SettingsFile) {
		_, err := content.ReadSettings(dir)
		return Built{}, err
	}
	release, err := run.Hold(dir)
	if err != nil {
		return Built{}, err
	}
	defer release()
	last := newLastBuild(dir, wish)
	if before, ok := last.stands(); ok {
		return before, nil
	}
	in, err := siteInput(dir, wish.Teacher)
	if err != nil {
		return Built{}, err
	}
	again := run.Pictures(ctx, dir, last.files, in.Wall, wish.Tell)
	if err := again.Unwritten; err != nil {
		return Built{}, err
	}
	if err := last.forget(); err != nil {
		return Built{}, err
	}
	in.Sum, in.Version = last.sumOf, wish.Program
	in.Tick = wish.Tell.Steps("the site", 2*len(in.Wall.Tiles))
	b := Built{Open: filepath.ToSlash(filepath.Join(last.dir, "index.html")), Remade: again.Made, Lost: again.Lost}
	b.Report, err = site.Build(ctx, last.dir, in)
	if errors.Is(err, context.Canceled) {
		return Built{Remade: again.Made, Stopped: true}, nil
	}
	if err != nil {
		return Built{}, err
	}
	last.keep(b, again.Missed == 0)
	return b, nil
}

// siteFolder keeps the teacher's copy apart, so that publishing the other can
// never take it along.
func siteFolder(teacher bool) string {
	if teacher {
		return "teacher"
	}
	return "site"
}

// siteInput reads all that the site is made from.
func siteInput(dir folder.Folder, teacher bool) (site.Input, error) {
	var ps run.Problems
	r, err := run.LoadRecords(dir)
	if run.IsNoWall(err) {
		return site.Input{}, err
	}
	ps.Add(err)
	pages, err := content.ReadPages(dir)
	ps.Add(err)
	if err := ps.OrNil(); err != nil {
		return site.Input{}, err
	}
	if len(r.Wall.Tiles) == 0 {
		return site.Input{}, tiles.Problem{File: record.PlanFile, What: "has no tiles", Do: "run twodip plan first", Page: "write the plan first, on the page Plan"}
	}
	in := site.Input{
		Wall: r.Wall, Pages: pages, Pictures: pictures(dir, r.Wall), PagePicture: pagePicture(dir),
		Theme: dir.Part("themes"), Cache: dir.Path(run.CacheFolder),
	}
	if r.Wall.Guesses {
		in.Foresee = foresee.OfWall(r.Wall)
	}
	in.Skipped, in.Caution = run.Verdicts(r.Wall)
	tellRecords(&in, r, teacher)
	return in, nil
}

// tellRecords gives a site what the records say: faults counted by pair, tiles
// that are due again, the firings, and, to the teacher alone, traces and drift.
func tellRecords(in *site.Input, r run.Records, teacher bool) {
	d := r.Drift()
	seen := logbook.NewSeen(r.Log.Each(), r.Wall.Glazes)
	in.Seen, in.Records, in.Loads, in.Due = seen.On, seen.Say(), r.Loads, due(r.Wall, d)
	if !teacher {
		return
	}
	in.Teacher, in.Records = &site.Teacher{Drift: &d}, "what trace says of the log, for you alone: do not publish this copy"
	if r.Log.Len() > 0 {
		report := r.Trace()
		in.Teacher.Trace = &report
	}
}

// due says why one of the wall's own tiles has to be made again: its bucket no
// longer matches it, or a re-test of it waits.
func due(w tiles.Wall, d drift.Report) func(tiles.Number) string {
	why := map[tiles.Number]string{}
	for _, t := range w.Tiles {
		if t.Retest() && t.Status == tiles.Planned {
			why[t.Repeats] = t.Reason
		}
	}
	for n, reason := range d.Mismatched(w) {
		why[n] = reason
	}
	return func(n tiles.Number) string { return why[n] }
}
