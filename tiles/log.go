package tiles

import "strconv"

// Piece is one row of the glazing log: one student's piece.
type Piece struct {
	ID       string // the piece, as written
	Date     string // "2006-01-02"
	Maker    string // initials or a number; never published
	Clay     string
	Bisque   string   // bisque load
	Pair              // by glaze code; Second empty for one coat
	More     []string // third and later coats, where somebody wrote them: always flagged
	How      string   // dipped, poured, brushed
	Where    string   // where the second coat went
	Foot     string   // "wiped" or what was written instead; "" = not written
	Load     string
	Shelf    string
	Result   string   // as written: good, fault
	Faults   []string // in the trade's own words
	Zone     Zone
	Severity int // 0–3
	Note     string
	Line     int // line of the log
}

// Load is one firing of one kiln.
type Load struct {
	Name     string
	Kiln     string
	Date     string // "2006-01-02"
	Schedule string
	Cones    map[string]string // shelf → cone that bent there
	Tiles    int               // the plan's load whose tiles were in it, 1 and up; 0 = not written
	Note     string
	Line     int
}

// PlanLoad is the plan's load whose tiles this firing held: the one written,
// or, for a firing that is named by a number alone ("3"), that one. 0 = none:
// a studio that names its firings G1, G2, … fires pots and bisque too, so a
// number within a name says nothing about tiles.
func (l Load) PlanLoad() int {
	if l.Tiles > 0 {
		return l.Tiles
	}
	n, err := strconv.Atoi(l.Name)
	if err != nil {
		return 0
	}
	return max(n, 0)
}

// DateOrder says which comes first in a date written with the year last.
type DateOrder string

// The orders. 2026-04-03 is always year, month, day.
const (
	DayFirst   DateOrder = "day first"
	MonthFirst DateOrder = "month first"
)
