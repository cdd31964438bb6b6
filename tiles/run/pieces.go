package run

import (
	"time"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Accept marks rows from phones as looked at, by their keys; rows that came
// since wait for the next look.
func Accept(dir folder.Folder, keys []string) (marked int, err error) {
	err = inLog(dir, func(s tiles.Settings) error {
		marked, err = record.MarkLooked(dir, s.Log, keys)
		return err
	})
	return marked, err
}

// FillPiece writes into a piece's row what is not written there yet: its load
// and shelf, how it came out. What is written there stays; filled is what it wrote.
func FillPiece(dir folder.Folder, id string, row record.Cells) (filled record.Cells, err error) {
	err = inCells(dir, func(s tiles.Settings) error {
		filled, err = record.FillPiece(dir, s.Log, id, row)
		return err
	})
	return filled, err
}

// EmptyPiece takes back what FillPiece wrote, where it still stands.
func EmptyPiece(dir folder.Folder, id string, filled record.Cells) error {
	return inCells(dir, func(s tiles.Settings) error { return record.EmptyPiece(dir, s.Log, id, filled) })
}

// TakenBack is what a teacher takes back of what was said at the kiln.
type TakenBack string

// What can be taken back.
const (
	BackResult TakenBack = "result" // how it came out
	BackLoad   TakenBack = "load"   // its load and shelf
)

// TakeBack empties what was said of a piece at the kiln, whoever said it. The
// version before it is kept.
func TakeBack(dir folder.Folder, id string, what TakenBack) error {
	row := record.Cells{"load": "", "shelf": ""}
	if what == BackResult {
		row = record.Cells{"result": "", "faults": "", "zone": "", "severity": ""}
	}
	return inLog(dir, func(s tiles.Settings) error { return record.EmptyPiece(dir, s.Log, id, row) })
}

// nowAndThen is how often a version is kept where nothing that a person wrote
// changes: a hundred taps at the kiln must not push out the versions of the day.
const nowAndThen = 10 * time.Minute

// inCells changes cells that phones fill, and nothing else.
func inCells(dir folder.Folder, do func(tiles.Settings) error) error {
	letGo, err := lockIn(dir, patience)
	if err != nil {
		return err
	}
	defer letGo()
	s, err := content.ReadSettings(dir)
	if err != nil {
		return err
	}
	versions, err := earlier.List(dir)
	if err != nil {
		return err
	}
	if of := earlier.Of(versions, record.LogFile); len(of) == 0 || time.Since(of[0].Kept) > nowAndThen {
		if err := earlier.Keep(dir, time.Now(), record.LogFile); err != nil {
			return err
		}
	}
	return do(s)
}

// inLog changes the log, with a version of all files before and after it.
func inLog(dir folder.Folder, do func(tiles.Settings) error) error {
	letGo, err := lockIn(dir, patience)
	if err != nil {
		return err
	}
	c := &change{dir: dir, letGo: letGo}
	defer c.end()
	s, err := content.ReadSettings(dir)
	if err != nil {
		return err
	}
	if err := c.begin(); err != nil {
		return err
	}
	return do(s)
}
