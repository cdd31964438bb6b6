package run

import (
	"fmt"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/record"
)

// Say says what log did and what it found, a sentence each: the liberties taken,
// what could not be read, the columns left out, the pieces not to be loaded.
func (r Logged) Say() []string {
	said := append([]string{}, r.Read...)
	for _, u := range r.Unknown {
		said = append(said, fmt.Sprintf("%s (%s; taken as written)", u.Say(), english.Count(u.Times, "time", "times")))
	}
	for _, column := range r.Left {
		said = append(said, column+" is no column of the log and stays out of it")
	}
	if r.Heading != "" {
		said = append(said, "to take such a column in, write a line like this into wall.yaml, with the column of the log that it is, and take the file again: "+r.Heading)
	}
	return append(said, r.SayHeld()...)
}

// SayHeld says which pieces must not be loaded as they are, and why.
func (r Logged) SayHeld() []string {
	var said []string
	for _, h := range r.Held {
		for _, why := range h.Reasons {
			said = append(said, fmt.Sprintf("not to be loaded: %s: %s", h.Say(), why))
		}
	}
	return said
}

// Summary is what log did in a line; took says that it was given rows.
func (r Logged) Summary(took bool) string {
	summary := english.Count(r.Pieces, "piece", "pieces") + " in the log, " + r.waitingWords()
	if took {
		summary = fmt.Sprintf("%s, %s, %d already there; ", english.Count(r.New, "new row", "new rows"), english.Count(r.Filled, "row filled", "rows filled"), r.Same) + summary
	}
	return summary
}

func (r Logged) waitingWords() string {
	switch {
	case r.Waiting == 0:
		return "none waiting for the kiln"
	case len(r.Held) == 0:
		return fmt.Sprintf("%d waiting for the kiln, none held back", r.Waiting)
	}
	return fmt.Sprintf("%d waiting for the kiln, %d not to be loaded as they are", r.Waiting, len(r.Held))
}

// Next is what to do after log: "" = look for faults.
func (r Logged) Next() string {
	if len(r.Held) > 0 {
		return "put these right in " + record.LogFile
	}
	return ""
}
