package main

import (
	"errors"
	"io"
	"strings"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// app is one run of the program: its streams and the flags every command has.
type app struct {
	in   io.Reader
	out  io.Writer
	err  io.Writer
	wall string // the wall's folder
	json bool   // say the result for programs
}

// folder is the wall's folder.
func (a *app) folder() folder.Folder { return folder.At(a.wall) }

// ownSum tells this program from every other that may make things otherwise.
var ownSum = produce.Program

// status says an error, one line a problem, and returns the exit status.
func (a *app) status(err error) int {
	var usage usageError
	var asked run.ErrNotAsked
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errSaid):
		return 1
	case errors.As(err, &usage), errors.As(err, &asked), isUnknownCommand(err):
		a.complain(err)
		a.hint("twodip --help says what there is")
		return 2
	}
	a.complain(folder.ExplainAny(err))
	return 1
}

// isUnknownCommand knows cobra's own error for a command it has not got: the
// library gives it no type.
func isUnknownCommand(err error) bool {
	return strings.HasPrefix(err.Error(), "unknown command ")
}
