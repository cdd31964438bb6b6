package sheet

import (
	"errors"
	"io"
	"time"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace"
)

// Job is what the sheets of one printing share.
type Job struct {
	Wall tiles.Wall
	Date string  // "2006-01-02", printed at the foot; the caller's, so that the same job gives the same bytes
	List string  // path of the glaze list inside the wall, for what is said about names
	Font []byte  // a TrueType font for letters the built-in one lacks; nil = none
	New  Numbers // where not nil, only these tiles are new and only they are printed

	Trace  *trace.Report  // what the log says of its faults; nil = no log
	Drift  *drift.Report  // the buckets against their tiles; nil = not asked
	Pieces []tiles.Piece  // of the log, waiting for their firing and fit for it
	Held   []logbook.Held // of the log, waiting and not fit, with the reasons

	Stopped func() error // asked before each page; an error ends the sheet, and is returned. May be nil
	Door    string       // the address of the studio’s door, key and all; "" = it was never opened

	Say func(string) // hears one sentence about everything printed less well than wished; may be nil
}

// Numbers is a set of tile numbers.
type Numbers map[tiles.Number]bool

// Sheet is one PDF that can be asked for by name.
type Sheet struct {
	Name  string // as typed: "labels"
	Title string // as read: "Tile labels"
	Form  bool   // a form to copy: what is new does not change it
	Draw  func(io.Writer, Job) (pages int, err error)
	Also  string // another name it may be asked for by; "" = none
	Asked bool   // printed only where it is asked for by name
}

// ErrNothing says that a sheet has nothing to show on this wall.
var ErrNothing = errors.New("nothing to print")

// TooLarge says that a wall has more tiles than a sheet can show.
type TooLarge struct{ tiles.Problem }

// Unwrap is the problem as it is said.
func (t TooLarge) Unwrap() error { return t.Problem }

// Sheets lists every sheet, in the order of the work.
func Sheets() []Sheet {
	return []Sheet{
		{Name: "labels", Title: "Tile labels", Draw: Labels},
		{Name: "tags", Title: "Heads and tags for the wall", Draw: Tags},
		{Name: "grid", Title: "Wall grid", Draw: Grid, Asked: true},
		{Name: "overview", Title: "The wall on one page", Draw: Overview},
		{Name: "materials", Title: "What to make", Draw: Materials},
		{Name: "numbers", Title: "Numbers on raw tiles", Draw: Numbering},
		{Name: "bisque", Title: "Bisque firings", Draw: Bisque},
		{Name: "dips", Title: "Dip runs", Draw: Dips},
		{Name: "shelves", Title: "Shelf maps", Draw: Shelves},
		{Name: "log", Title: "Glazing log", Form: true, Draw: Log},
		{Name: "log-lines", Title: "Glazing log, a line a piece", Form: true, Draw: LogLines},
		{Name: "log-cards", Title: "Glazing log, a card a piece", Form: true, Draw: LogCards, Asked: true},
		{Name: "firing", Title: "Firing record", Form: true, Draw: Firing},
		{Name: "trace", Title: "Faults in the log", Draw: Trace},
		{Name: "drift", Title: "Buckets against their tiles", Draw: Drift},
		{Name: "buckets", Title: "Bucket cards", Draw: Buckets},
		{Name: "door", Title: "Write your piece down", Form: true, Draw: Door, Asked: true},
		{Name: "safety", Title: "Working safely", Form: true, Draw: Safety},
		{Name: "mat", Title: "Photo mat", Form: true, Draw: Mat},
		{Name: "mat-pair", Title: "Photo mat for two tiles", Form: true, Draw: MatPair, Asked: true},
		{Name: "board", Title: "Board marks", Draw: Board, Also: "marks"},
	}
}

// say passes one sentence on to whoever listens.
func (j Job) say(s string) {
	if j.Say != nil {
		j.Say(s)
	}
}

// day is the job's date; a fixed one where none was given, because a PDF that
// takes the clock's differs from run to run.
func (j Job) day() time.Time {
	if t, err := time.Parse("2006-01-02", j.Date); err == nil {
		return t
	}
	return time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
}

// due is every tile that hangs or will hang, or the new ones among them, in
// the order of the plan.
func (j Job) due() []tiles.Tile {
	var due []tiles.Tile
	for _, t := range j.Wall.Tiles {
		hangs := t.Status != tiles.Retired && t.Status != tiles.Skipped
		if hangs && (j.New == nil || j.New[t.Number]) {
			due = append(due, t)
		}
	}
	return due
}

// list is the path of the glaze list, for what is said about names.
func (j Job) list() string {
	if j.List == "" {
		return "content/glazes.csv"
	}
	return j.List
}
