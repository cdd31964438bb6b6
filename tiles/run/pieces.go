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

// FillPiece writes into a piece's row what is not written there yet: its load
// and shelf, how it came out. What is written there stays.
func FillPiece(dir folder.Folder, id string, row record.Cells) error {
	return inLog(dir, func(s tiles.Settings) error { return record.FillPiece(dir, s.Log, id, row) })
}

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
