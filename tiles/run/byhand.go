package run

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// ByHand keeps what a person says of a photo, whose tile it is and where its
// face lies, in the version of tiles/by-hand.csv that they saw; nothing said is
// as it is found again. The next measure reads that photo anew.
func ByHand(dir folder.Folder, seen string, b tiles.ByHand) error {
	photos, err := dir.ListPhotos()
	if err != nil {
		return err
	}
	if !slices.ContainsFunc(photos, func(name string) bool { return tiles.SamePhoto(name, b.Photo) }) {
		return tiles.Problem{File: b.Photo, What: "there is no such photo in " + folder.Photos, Do: "choose one of those on the page"}
	}
	if b.Tile > 0 {
		planned, err := record.ReadTiles(dir)
		if err != nil {
			return err
		}
		if _, ok := tiles.FindTile(planned, b.Tile); !ok {
			return tiles.Problem{File: b.Photo, What: fmt.Sprintf("there is no tile %d on this wall", b.Tile), Do: "look at the number on the tile's back"}
		}
	}
	return Change(dir, Edit{File: record.ByHandFile, Seen: seen, Text: func(was []byte) ([]byte, error) { return record.WithByHand(was, b) }})
}
