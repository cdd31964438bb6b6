package fault

import (
	"fmt"
	"strconv"
	"strings"
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
		add("%s no result yet and %s left out.", counted(r.Waiting, "piece has", "pieces have"), isAre(r.Waiting))
	}
	if r.Unread > 0 {
		add("%s left out because a glaze of theirs is not on the list.", counted(r.Unread, "piece is", "pieces are"))
	}
	for _, u := range r.Unknown {
		add("%s (%s)", u.Say(), u.where())
	}
	return notes
}

// where says how often and in which lines of the log.
func (u Unknown) where() string {
	times := counted(u.Times, "time", "times")
	if len(u.Lines) == 0 {
		return times
	}
	lines := make([]string, len(u.Lines))
	for i, l := range u.Lines {
		lines[i] = strconv.Itoa(l)
	}
	word := "line "
	if len(lines) > 1 {
		word = "lines "
	}
	more := ""
	if u.Times > len(lines) {
		more = " …"
	}
	return times + ", " + word + strings.Join(lines, ", ") + more
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}
