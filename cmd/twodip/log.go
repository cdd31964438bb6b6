package main

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
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

// logged is what log says to programs.
type logged struct {
	record.Added
	Pieces  int               `json:"pieces"`
	Waiting int               `json:"waiting"`
	Read    []string          `json:"read"`
	Unknown []logbook.Unknown `json:"unknown"`
	Left    []string          `json:"left"`
	Held    []logbook.Held    `json:"held"`
}

func (a *app) takeLog(files []string) error {
	wall, err := a.load()
	if err != nil {
		return err
	}
	a.hintCopies()
	var result logged
	clerk := logbook.NewClerk(wall.Glazes)
	incoming, err := readIncoming(files, wall.Log, clerk, &result)
	if err != nil {
		return err
	}
	if len(files) > 0 {
		result.Read, result.Unknown = append(result.Read, clerk.Said()...), clerk.Unknown()
		if err := a.addPieces(wall.Log, incoming, logbook.NewClerk(wall.Glazes), &result); err != nil {
			return err
		}
	}
	l, err := record.ReadLog(a.folder(), wall.Log)
	if err != nil {
		return err
	}
	result.Pieces = l.Len()
	ruled, _ := verdicts(wall)
	pass, held := logbook.Waiting(wall, l.Each(), ruled)
	result.Waiting, result.Held = len(pass)+len(held), held
	return a.sayLogged(result, len(files) > 0)
}

// readIncoming reads all files before anything is written.
func readIncoming(files []string, s tiles.LogSettings, clerk *logbook.Clerk, result *logged) ([]record.Incoming, error) {
	var ps problems
	var incoming []record.Incoming
	for _, name := range files {
		l, err := readPieces(name, s)
		if err != nil {
			ps.add(err)
			continue
		}
		for _, n := range l.Notes {
			result.Read = append(result.Read, filepath.ToSlash(name)+": "+n)
		}
		for _, column := range l.Left {
			result.Left = append(result.Left, filepath.ToSlash(name)+": "+column)
		}
		in := record.Incoming{File: filepath.ToSlash(name)}
		for p := range l.Each() {
			in.Pieces = append(in.Pieces, clerk.Piece(p))
		}
		incoming = append(incoming, in)
	}
	return incoming, ps.err()
}

func readPieces(name string, s tiles.LogSettings) (*record.Log, error) {
	f, err := folder.Given(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, tiles.Problem{File: filepath.ToSlash(name), What: "cannot be opened", Do: "check the name"}
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return record.ReadPieces(filepath.ToSlash(name), f, s)
}

func (a *app) addPieces(s tiles.LogSettings, incoming []record.Incoming, clerk *logbook.Clerk, result *logged) error {
	release, err := a.folder().Lock()
	if err != nil {
		return err
	}
	defer release()
	result.Added, err = record.AddPieces(a.folder(), s, incoming, clerk.Piece)
	return err
}

func (a *app) sayLogged(r logged, took bool) error {
	for _, said := range r.Read {
		a.step("%s", said)
	}
	for _, u := range r.Unknown {
		a.step("%s (%s; taken as written)", u.Say(), many(u.Times, "time", "times"))
	}
	for _, column := range r.Left {
		a.step("%s is no column of the log and stays out of it", column)
	}
	for _, h := range r.Held {
		for _, why := range h.Reasons {
			a.step("not to be loaded: %s: %s", h.Say(), why)
		}
	}
	summary := many(r.Pieces, "piece", "pieces") + " in the log, " + waitingWords(r.Waiting, len(r.Held))
	if took {
		summary = fmt.Sprintf("%s, %s, %d already there; ", many(r.New, "new row", "new rows"), many(r.Filled, "row filled", "rows filled"), r.Same) + summary
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
