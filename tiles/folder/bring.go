package folder

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/twodip/twodip/tiles"
)

// bringPrefix begins the name of a photo that is being brought. Nobody sees it
// as a photo, and no Lock sweeps it away: photos may be brought while a verb
// holds the wall. One that a crash left is removed a day later.
const bringPrefix = ".twodip-bringing-"

// mostBringing is how long a photo may take to be brought.
const mostBringing = 24 * time.Hour

// BringPhoto puts a photo among the wall's, under its own name or, where a
// photo of that name is there, one like it; no photo is ever written over. The
// name that it got is below tiles/photos; known = the very same photo was there
// already, under that name. An error leaves nothing.
func (f Folder) BringPhoto(name string, fill func(io.Writer) error) (got string, known bool, err error) {
	root, err := os.OpenRoot(f.dir)
	if err != nil {
		return "", false, Explain(f.Called(), err)
	}
	defer root.Close()
	photos := filepath.FromSlash(Photos)
	if err := root.MkdirAll(photos, 0o755); err != nil {
		return "", false, Explain(Photos, err)
	}
	if err := noLink(root, photos); err != nil {
		return "", false, explainRead(Photos, err)
	}
	f.sweepBrought(root)
	temp := filepath.Join(photos, bringPrefix+rand.Text())
	file, err := root.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", false, Explain(Photos, err)
	}
	defer func() { _ = root.Remove(temp) }() // where it was placed it is gone already
	if err := fillAndSync(root.Name(), file, nil, fill); err != nil {
		return "", false, Explain(Photos+"/"+name, err)
	}
	got, known, err = place(root, temp, name)
	syncFolder(root, photos)
	return got, known, Explain(Photos+"/"+name, err)
}

// sweepBrought removes what crashes left.
func (f Folder) sweepBrought(root *os.Root) {
	names, _ := f.Names(Photos)
	for _, name := range names {
		local := filepath.Join(filepath.FromSlash(Photos), name)
		if info, err := root.Lstat(local); strings.HasPrefix(name, bringPrefix) && err == nil && time.Since(info.ModTime()) > mostBringing {
			_ = root.Remove(local)
		}
	}
}

// errTaken says that there is a photo of the name.
var errTaken = errors.New("there is a photo of that name")

// place gives a photo that was brought whole the first name like its own that
// is free, or finds that it is there already.
func place(root *os.Root, temp, name string) (got string, known bool, err error) {
	ending := path.Ext(name)
	for n := 1; n < 1000; n++ {
		got = name
		if n > 1 {
			got = fmt.Sprintf("%s (%d)%s", strings.TrimSuffix(name, ending), n, ending)
		}
		local := filepath.Join(filepath.FromSlash(Photos), got)
		err = placeAs(root, temp, local)
		if !errors.Is(err, errTaken) {
			return got, false, err
		}
		if same, err := sameFile(root, temp, local); err == nil && same {
			return got, true, nil
		}
	}
	return "", false, tiles.Problems{{File: Photos + "/" + name, What: "a thousand photos of that name are there", Do: "give this one another name"}}
}

// placeAs names it, unless the name is taken; where the drive has no links, a
// name that is taken in the very same moment would be taken over.
func placeAs(root *os.Root, temp, local string) error {
	err := root.Link(temp, local)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return errTaken
	}
	if _, err := root.Lstat(local); !errors.Is(err, fs.ErrNotExist) {
		return errTaken
	}
	return root.Rename(temp, local)
}

// sameFile says that two files hold the same bytes.
func sameFile(root *os.Root, a, b string) (bool, error) {
	x, err := root.Open(a)
	if err != nil {
		return false, err
	}
	defer x.Close()
	info, err := root.Stat(b)
	if err != nil || !info.Mode().IsRegular() {
		return false, err
	}
	y, err := root.Open(b)
	if err != nil {
		return false, err
	}
	defer y.Close()
	left, right := make([]byte, 64<<10), make([]byte, 64<<10)
	for {
		n, errX := io.ReadFull(x, left)
		m, errY := io.ReadFull(y, right)
		if !slices.Equal(left[:n], right[:m]) {
			return false, nil
		}
		if errX != nil || errY != nil {
			return true, nil
		}
	}
}
