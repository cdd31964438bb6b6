package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func logCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "log [FILE…]",
		Short: "Take rows of the glazing log from CSV files; check what waits for the kiln",
		Long: `Take rows from CSV files into tiles/log.csv: a log typed from paper, a
spreadsheet's or a form's export, a list kept in the browser. Columns are found
by their headings; your own are named under log: headings: in wall.yaml. A row
that is in the log already is not taken twice; a piece that is there, by its
name and day, gets its empty cells filled.

Then, or without files, it looks at every piece that waits for its firing and
says which must not be loaded as they are, and why.`,
		RunE: func(_ *cobra.Command, files []string) error { return a.takeLog(files) },
	}
}

func (a *app) takeLog(files []string) error {
	var rows []run.Rows
	for _, file := range files {
		rows = append(rows, run.RowsOf(file))
	}
	did, err := run.Log(a.folder(), rows)
	if err != nil {
		return err
	}
	a.hintCopies()
	return a.sayLogged(did, len(files) > 0)
}

func (a *app) sayLogged(r run.Logged, took bool) error {
	for _, said := range r.Read {
		a.step("%s", said)
	}
	for _, u := range r.Unknown {
		a.step("%s (%s; taken as written)", u.Say(), english.Count(u.Times, "time", "times"))
	}
	for _, column := range r.Left {
		a.step("%s is no column of the log and stays out of it", column)
	}
	for _, h := range r.Held {
		for _, why := range h.Reasons {
			a.step("not to be loaded: %s: %s", h.Say(), why)
		}
	}
	summary := english.Count(r.Pieces, "piece", "pieces") + " in the log, " + waitingWords(r.Waiting, len(r.Held))
	if took {
		summary = fmt.Sprintf("%s, %s, %d already there; ", english.Count(r.New, "new row", "new rows"), english.Count(r.Filled, "row filled", "rows filled"), r.Same) + summary
	}
	next := "twodip trace"
	if len(r.Held) > 0 {
		next = "put these right in " + record.LogFile + ", then: twodip log"
	}
	return a.done(r, summary, next)
}

func waitingWords(waiting, held int) string {
	switch {
	case waiting == 0:
		return "none waiting for the kiln"
	case held == 0:
		return fmt.Sprintf("%d waiting for the kiln, none held back", waiting)
	}
	return fmt.Sprintf("%d waiting for the kiln, %d not to be loaded as they are", waiting, held)
}
