package run

import (
	"fmt"

	"github.com/twodip/twodip/tiles/folder"
)

// littleRoom is what a build of a few hundred tiles with photos takes beside
// the site that is there.
const littleRoom = 200 << 20

// fullDisk says that the wall's disk is nearly full, before anything stops
// halfway; nothing where there is room.
func fullDisk(dir folder.Folder) []string {
	if free, known := dir.Free(); known && free < littleRoom {
		return []string{fmt.Sprintf("the disk has %d MB left, and a build may take %d: make room before you go on", free>>20, littleRoom>>20)}
	}
	return nil
}
