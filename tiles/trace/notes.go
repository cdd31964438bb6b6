package trace

import (
	"fmt"

	"github.com/twodip/twodip/tiles/english"
)

// Notes says what a reader must know of the log before its faults, one
// sentence an item.
func (r *Report) Notes() []string {
	var notes []string
	add := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	faulty := r.Pieces - r.Good
	switch {
	case r.Pieces == 0:
		add("The log has no piece with a result yet: write “good” below result, or the fault below faults.")
	case r.Good == 0:
		add("Every piece in the log has a fault, so there is no rate to compare. Log the good pieces too, with “good” below result.")
	case faulty == 0:
		add("No piece in the log has a fault.")
	case faulty > r.Good:
		add("More than half of the pieces in the log have a fault. If good pieces were not logged, the counts below mislead.")
	}
	if r.Waiting > 0 {
		add("%s no result yet and %s left out.", english.Count(r.Waiting, "piece has", "pieces have"), english.Number(r.Waiting, "is", "are"))
	}
	if r.Unread > 0 {
		add("%s left out because a glaze of theirs is not on the list.", english.Count(r.Unread, "piece is", "pieces are"))
	}
	notes = append(notes, r.Doubles.Say()...)
	for _, u := range r.Unknown {
		add("%s (%s)", u.Say(), u.Where())
	}
	return notes
}
