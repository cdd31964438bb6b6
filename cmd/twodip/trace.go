package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/fault"
	"github.com/twodip/twodip/tiles/record"
)

func traceCommand(a *app) *cobra.Command {
	var figures bool
	c := &cobra.Command{
		Use:   "trace",
		Short: "Ask the log what faulty pieces have in common",
		Long: `Ask tiles/log.csv, for every fault, what its pieces have in common: a glaze, first
or second, a pair, a batch, a load, a shelf, a clay, a way of glazing. Only
what stands out from chance is named, and only what is still true when each
load is looked at by itself. It never says what caused a fault.`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.trace(figures) },
	}
	c.Flags().BoolVar(&figures, "figures", false, "also the numbers: ratios, intervals, chances")
	return c
}

// records is the log and what it is joined with.
type records struct {
	wall    tiles.Wall
	log     *record.Log
	batches []tiles.Batch
	loads   []tiles.Load
}

func (r records) studio() fault.Studio {
	return fault.Studio{Glazes: r.wall.Glazes, Batches: r.batches, Loads: r.loads}
}

// loadRecords reads the wall with its log, buckets and firings, and returns
// every problem in all of them.
func (a *app) loadRecords() (records, error) {
	var ps problems
	var r records
	wall, err := a.load()
	if isNoWall(err) {
		return r, err
	}
	ps.add(err)
	r.wall = wall
	r.log, err = record.ReadLog(a.wall, wall.Log)
	ps.add(err)
	r.batches, err = record.ReadBatches(a.wall, wall.Log.Dates)
	ps.add(err)
	r.loads, err = record.ReadLoads(a.wall, wall.Log.Dates)
	ps.add(err)
	return r, ps.err()
}

func (a *app) trace(figures bool) error {
	r, err := a.loadRecords()
	if err != nil {
		return err
	}
	if r.log.Len() == 0 {
		return tiles.Problem{File: record.LogFile, What: "there is no piece in the log", Do: "take rows in with: twodip log FILE"}
	}
	report := fault.Trace(r.log.Each(), r.studio())
	a.sayTrace(report, figures)
	named := 0
	for _, f := range report.Faults {
		named += len(f.Found)
	}
	summary := fmt.Sprintf("%s with a result, %s, %s", many(report.Pieces, "piece", "pieces"),
		many(len(report.Faults), "fault", "faults"), many(named, "suspect named", "suspects named"))
	return a.done(report, summary, "twodip print trace")
}

func (a *app) sayTrace(report fault.Report, figures bool) {
	for _, note := range append(report.Read, report.Notes()...) {
		a.step("%s", note)
	}
	for _, f := range report.Faults {
		a.step("\n%s", f.Heading())
		if where := f.SayZones(); where != "" {
			a.step("  %s", where)
		}
		if nothing := f.SayNothing(); nothing != "" && report.Comparable() {
			a.step("  %s", nothing)
		}
		a.sayFindings(f.Found, figures)
		a.sayFindings(f.Gone, figures)
		if len(f.Found) > 0 && f.Word.Check != "" {
			a.step("  Look first at: %s.", f.Word.Check)
		}
		if f.Word.Care != "" {
			a.step("  Take care: %s", f.Word.Care)
		}
	}
	if report.Comparable() {
		a.step("\n%s", fault.Caveat)
	}
}

func (a *app) sayFindings(list []fault.Finding, figures bool) {
	for _, one := range list {
		for i, sentence := range one.Words {
			if i == 0 {
				a.step("  * %s", sentence)
				continue
			}
			a.step("    %s", sentence)
		}
		if figures {
			a.step("    (%s)", one.Figures)
		}
	}
}
