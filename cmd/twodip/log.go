package main

import (
	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/run"
)

func logCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "log [FILE…]",
		Short: "Take rows of the glazing log from a table; check what waits for the kiln",
		Long: `Take rows from tables (.csv, .xlsx, .ods) into tiles/log.csv: a log typed from
paper, a spreadsheet, a form's export, a list kept in the browser. Columns are found
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
	for _, said := range r.Say() {
		a.step("%s", said)
	}
	next := "twodip trace"
	if first := r.Next(); first != "" {
		next = first + ", then: twodip log"
	}
	return a.done(r, r.Summary(took), next)
}
