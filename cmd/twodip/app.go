package main

import (
	"errors"
	"io"
	"strings"

	"github.com/twodip/twodip/tiles/folder"
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

// status says an error, one line a problem, and returns the exit status.
func (a *app) status(err error) int {
	var usage usageError
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errSaid):
		return 1
	case errors.As(err, &usage), isUnknownCommand(err):
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
