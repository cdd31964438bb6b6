package main

import (
	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/trace"
)

// records is the wall with its log and what that is joined with.
type records struct {
	wall    tiles.Wall
	log     *record.Log
	batches []tiles.Batch
	loads   []tiles.Load
}

func (r records) studio() trace.Studio {
	return trace.Studio{Glazes: r.wall.Glazes, Batches: r.batches, Loads: r.loads}
}

func (r records) drift() drift.Report { return drift.Compare(r.wall, r.batches, r.loads) }

// loadRecords is readRecords, and says which files it did not look at though
// somebody's work may be in them.
func (a *app) loadRecords() (records, error) {
	r, err := a.readRecords()
	if err == nil {
		a.hintCopies()
	}
	return r, err
}

// readRecords reads the wall with its log, buckets and firings, and returns
// every problem in all of them.
func (a *app) readRecords() (records, error) {
	var ps problems
	var r records
	wall, err := a.load()
	if isNoWall(err) {
		return r, err
	}
	ps.add(err)
	r.wall = wall
	r.log, err = record.ReadLog(a.folder(), wall.Log)
	ps.add(err)
	r.batches, err = record.ReadBatches(a.folder(), wall.Log.Dates)
	ps.add(err)
	r.loads, err = record.ReadLoads(a.folder(), wall.Log.Dates)
	ps.add(err)
	return r, ps.err()
}

// siteFolder keeps the teacher's copy apart, so that publishing the other can
// never take it along.
func siteFolder(teacher bool) string {
	if teacher {
		return "teacher"
	}
	return "site"
}

// tell gives a site what the records say: faults counted by pair, tiles that
// are due again, the firings, and, to the teacher alone, traces and drift.
func (r records) tell(in *site.Input, teacher bool) {
	d := r.drift()
	seen := logbook.NewSeen(r.log.Each(), r.wall.Glazes)
	in.Seen, in.Records, in.Loads, in.Due = seen.On, seen.Say(), r.loads, r.due(d)
	if !teacher {
		return
	}
	in.Teacher, in.Records = &site.Teacher{Drift: &d}, "what trace says of the log, for you alone: do not publish this copy"
	if r.log.Len() > 0 {
		report := trace.Faults(r.log.Each(), r.studio())
		in.Teacher.Trace = &report
	}
}

// due says why one of the wall's own tiles has to be made again: its bucket no
// longer matches it, or a re-test of it waits.
func (r records) due(d drift.Report) func(tiles.Number) string {
	why := map[tiles.Number]string{}
	for _, t := range r.wall.Tiles {
		if t.Retest() && t.Status == tiles.Planned {
			why[t.Repeats] = t.Reason
		}
	}
	for n, reason := range d.Mismatched(r.wall) {
		why[n] = reason
	}
	return func(n tiles.Number) string { return why[n] }
}
