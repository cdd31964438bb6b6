package produce

import (
	"net/url"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// doorFile holds the address of the studio's door, key and all, as it was opened
// last: what the sheet above the buckets says. It is made anew at any time.
const doorFile = "build/door.txt"

// KeepDoor writes down the address of the studio's door.
func KeepDoor(dir folder.Folder, address string) error {
	return dir.WriteBytes(doorFile, []byte(address+"\n"))
}

// doorAddress is the address of the door as it was opened last; "" = never.
func doorAddress(dir folder.Folder) string {
	text, err := dir.Read(doorFile, 4096)
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(text))
}

// DoorKey is the key that the door had last, so that a sheet that hangs stays
// right; "" where it had none. Removing the file makes a new one.
func DoorKey(dir folder.Folder) string {
	u, err := url.Parse(doorAddress(dir))
	if err != nil || len(u.Query().Get("key")) < 20 {
		return ""
	}
	return u.Query().Get("key")
}

// noDoor says that there is no address to print.
func noDoor() tiles.Problem {
	return tiles.Problem{File: doorFile, What: "the studio’s door has never been opened", Do: "open it on the bench, or with twodip bench --door ADDRESS:PORT, then print this sheet", Page: "open it on the page Studio’s door, then make this sheet"}
}
