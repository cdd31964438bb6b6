package produce

import (
	"os"
	"path/filepath"
	"sync"

	"github.com/twodip/twodip/tiles/unchanged"
)

// Program tells this program from every other that may make things otherwise:
// the hash of the program itself, since the number of a release stays the same
// while somebody changes the code. "" = not known, and nothing is taken over.
func Program() string { return ownSum() }

var ownSum = sync.OnceValue(func() string {
	path, err := os.Executable()
	if err != nil {
		return ""
	}
	sum, err := unchanged.Read("", filepath.Dir(path)).Sum(filepath.Base(path))
	if err != nil {
		return ""
	}
	return sum
})
