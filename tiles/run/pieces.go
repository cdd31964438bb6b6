package run

import (
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
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

// inLog changes the log, with a version of all files before and after it.
func inLog(dir folder.Folder, do func(tiles.Settings) error) error {
	letGo, err := holdSoon(dir, patience)
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
