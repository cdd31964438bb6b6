package folder

import (
	"errors"
	"os"
	"path/filepath"
)

// follow is where a name leads. A link is refused, but for a table of tiles/
// that leads to another file of the wall: it is read and written in that one's
// place, and the link stays. Out of the wall no link is followed: a folder may
// come from anybody, and a link in it may name any file of who opens it.
func follow(root *os.Root, local string) (string, error) {
	err := noLink(root, local)
	if filepath.Dir(local) != "tiles" || filepath.Ext(local) != ".csv" {
		return local, err
	}
	for range mostLinks {
		if !errors.Is(err, errLink) {
			return local, err
		}
		to, notOne := root.Readlink(local)
		if notOne != nil {
			return local, err // the link is a folder on the way
		}
		local = filepath.Join(filepath.Dir(local), to)
		if filepath.IsAbs(to) || !filepath.IsLocal(local) {
			return local, errOutside
		}
		err = noLink(root, local)
	}
	return local, err
}

// mostLinks that lead to each other are followed.
const mostLinks = 8
