package run

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/trace"
)

// Records is the wall with its log and what that is joined with.
type Records struct {
	Wall    tiles.Wall
	Log     *record.Log
	Batches []tiles.Batch
	Loads   []tiles.Load
}

// LoadRecords reads the wall with its log, buckets and firings. The error has
// every problem in all of them.
func LoadRecords(dir folder.Folder) (Records, error) {
	var ps Problems
	var r Records
	wall, err := Load(dir)
	if IsNoWall(err) {
		return r, err
	}
	ps.Add(err)
	r.Wall = wall
	r.Log, err = record.ReadLog(dir, wall.Log)
	ps.Add(err)
	ps.Add(r.ReadBuckets(dir))
	return r, ps.OrNil()
}

// ReadBuckets reads what was mixed and what was fired.
func (r *Records) ReadBuckets(dir folder.Folder) error {
	var ps Problems
	var err error
	r.Batches, err = record.ReadBatches(dir, r.Wall.Log.Dates)
	ps.Add(err)
	r.Loads, err = record.ReadLoads(dir, r.Wall.Log.Dates)
	ps.Add(err)
	return ps.OrNil()
}

// Studio is what the log is joined with.
func (r Records) Studio() trace.Studio {
	return trace.Studio{Glazes: r.Wall.Glazes, Batches: r.Batches, Loads: r.Loads}
}

// Drift holds the buckets against the wall's own tiles.
func (r Records) Drift() drift.Report { return drift.Compare(r.Wall, r.Batches, r.Loads) }

// Trace asks the log what faulty pieces have in common.
func (r Records) Trace() trace.Report { return trace.Faults(r.Log.Each(), r.Studio()) }

// Trace reads the wall's records and traces the faults of its log.
func Trace(dir folder.Folder) (trace.Report, error) {
	r, err := LoadRecords(dir)
	if err != nil {
		return trace.Report{}, err
	}
	if r.Log.Len() == 0 {
		return trace.Report{}, NoPiece()
	}
	return r.Trace(), nil
}

// NoPiece says that nothing can be traced yet.
func NoPiece() tiles.Problem {
	return tiles.Problem{File: record.LogFile, What: "there is no piece in the log", Do: "take rows in with: twodip log FILE", Page: "write pieces down, or bring a file of them, on the page Records"}
}

// Drift reads the wall's records and holds every bucket against its tiles.
func Drift(dir folder.Folder) (drift.Report, error) {
	r, err := LoadRecords(dir)
	if err != nil {
		return drift.Report{}, err
	}
	return r.Drift(), nil
}
