package plan

import (
	"math"

	"github.com/twodip/twodip/tiles"
)

// cupServes is the dips a second-dip cup should serve before what is left of
// it is thrown away. On a large wall a load holds a glaze as second only once
// or twice: then more loads are dipped in one go. Common practice, no source.
const cupServes = 4

// Session is the loads that are dipped in one go: each bucket is opened once a
// run for all of them, and a second-dip cup serves them all.
type Session []Load

// First is the number of its first load.
func (s Session) First() int { return s[0].Number }

// Last is the number of its last load.
func (s Session) Last() int { return s[len(s)-1].Number }

// Sessions puts the loads that are not fired together for dipping: as many as
// dip.together says or, where it says none, so many that a cup serves a few
// dips.
func Sessions(w tiles.Wall) []Session {
	var due []Load
	for _, l := range Loads(w) {
		if !l.Fired {
			due = append(due, l)
		}
	}
	if len(due) == 0 {
		return nil
	}
	return sessionsOf(due, together(w, due))
}

// sessionsOf cuts the loads into even sessions of so many at most.
func sessionsOf(due []Load, most int) []Session {
	n := (len(due) + most - 1) / most
	var out []Session
	for i := range n {
		out = append(out, Session(due[i*len(due)/n:(i+1)*len(due)/n]))
	}
	return out
}

func together(w tiles.Wall, due []Load) int {
	if w.Dip.Together > 0 {
		return min(w.Dip.Together, len(due))
	}
	dips, cups := 0, 0
	for _, l := range due {
		seen := map[string]bool{}
		for _, t := range l.Tiles() {
			if t.Second != "" {
				dips++
				seen[tiles.CodeKey(t.Second)] = true
			}
		}
		cups += len(seen)
	}
	if dips == 0 {
		return 1
	}
	return min(int(math.Ceil(cupServes*float64(cups)/float64(dips))), len(due))
}

// cupsOf is how many second-dip cups each glaze fills: one in every session,
// and one for the tiles that have no load yet.
func cupsOf(ts []tiles.Tile, sessions []Session) map[string]int {
	in := map[int]int{}
	for i, s := range sessions {
		for _, l := range s {
			in[l.Number] = i + 1
		}
	}
	filled := map[string]map[int]bool{}
	for _, t := range ts {
		if t.Second == "" {
			continue
		}
		key := tiles.CodeKey(t.Second)
		if filled[key] == nil {
			filled[key] = map[int]bool{}
		}
		filled[key][in[t.Load]] = true
	}
	cups := map[string]int{}
	for key, of := range filled {
		cups[key] = len(of)
	}
	return cups
}

// sessionWith is the session a load is dipped in; one that has been fired
// stands alone.
func sessionWith(w tiles.Wall, l Load) Session {
	for _, s := range Sessions(w) {
		if l.Number >= s.First() && l.Number <= s.Last() && !l.Fired {
			return s
		}
	}
	return Session{l}
}
