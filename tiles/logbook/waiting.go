package logbook

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// Held is a piece that must not go into the kiln as it is, and why.
type Held struct {
	Piece   tiles.Piece `json:"piece"`
	Reasons []string    `json:"reasons"`
}

// Say names the piece the way the log does.
func (h Held) Say() string {
	if h.Piece.ID != "" {
		return "piece " + h.Piece.ID
	}
	return fmt.Sprintf("the piece in line %d of the log", h.Piece.Line)
}

// mostCoats is the most coats on one piece: a third melts into neither
// (common practice, no source).
const mostCoats = 2

// Waiting looks at the pieces of a log that wait for their firing: those that
// are ready to be loaded, and those held back with the reasons. Pieces with a result
// have been fired and are passed over. ruled says why the wall's rules skip a
// pair, "" where they do not; it may be nil.
func Waiting(w tiles.Wall, log Log, ruled func(tiles.Pair) string) (ready []tiles.Piece, held []Held) {
	clerk := NewClerk(w.Glazes)
	l := look{wall: w, clerk: clerk, ruled: ruled}
	var waiting []tiles.Piece
	for row := range log {
		p := clerk.Piece(row)
		l.writesBisque = l.writesBisque || p.Bisque != ""
		l.writesFoot = l.writesFoot || p.Foot != ""
		if !Opened(p) {
			waiting = append(waiting, p)
		}
	}
	for _, p := range waiting {
		if reasons := l.reasons(p); len(reasons) > 0 {
			held = append(held, Held{Piece: p, Reasons: reasons})
		} else {
			ready = append(ready, p)
		}
	}
	return ready, held
}

// look knows what this studio writes down, so that an empty cell is only
// asked about where the others are filled.
type look struct {
	wall                     tiles.Wall
	clerk                    *Clerk
	ruled                    func(tiles.Pair) string
	writesBisque, writesFoot bool
}

var (
	noWords  = wordSet("no", "none", "not", "n", "0", "-", "not yet", "not wiped", "unwiped", "glazed", "not clean")
	unfired  = wordSet("no", "none", "n", "0", "-", "not yet", "greenware", "green", "raw", "unfired", "bone dry", "leather hard")
	brushing = "brushed"
)

func (l look) reasons(p tiles.Piece) []string {
	var why []string
	add := func(format string, args ...any) { why = append(why, fmt.Sprintf(format, args...)) }
	coats := len(p.More) + 1
	if p.Second != "" {
		coats++
	}
	switch {
	case coats > mostCoats:
		add("%d coats are written: two is the most", coats)
	case l.wall.Dip.Coats == 1 && coats > 1:
		add("two coats are written: this studio glazes with one")
	}
	if p.First == "" {
		add("no first glaze is written")
	}
	for _, code := range append([]string{p.First, p.Second}, p.More...) {
		if code != "" && !l.clerk.Knows(code) {
			add("%s", l.clerk.unknownGlaze(code).Say())
		}
	}
	if l.ruled != nil {
		if reason := l.ruled(p.Pair); reason != "" {
			add("the wall's rules skip %s: %s", l.wall.Say(p.Pair), reason)
		}
	}
	switch {
	case unfired[tiles.Fold(p.Bisque)]:
		add("it is unfired: bisque says “%s”", p.Bisque)
	case p.Bisque == "" && l.writesBisque:
		add("no bisque load is written: make sure that it is bisque-fired")
	}
	if p.How == brushing && !l.wall.Dip.Brush {
		add("it was brushed: this studio dips only")
	}
	switch {
	case noWords[tiles.Fold(p.Foot)]:
		add("the foot is not wiped")
	case p.Foot == "" && l.writesFoot:
		add("nobody wrote that the foot is wiped")
	}
	return why
}

// unknownGlaze is what the clerk noted of a glaze that is not on the list.
func (c *Clerk) unknownGlaze(code string) Unknown {
	if u := c.unknown["glaze\x00"+tiles.Fold(code)]; u != nil {
		return *u
	}
	return Unknown{What: "glaze", Written: code}
}
