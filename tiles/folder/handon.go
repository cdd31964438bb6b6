package folder

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// HandedList is the file in a folder handed on that says what it holds: a name
// and a hash a line. By it the next copy knows the folder for one of ours.
const HandedList = ".twodip-copy"

// HandedOn counts what a copy holds that the one before did not.
type HandedOn struct {
	Files, New, Changed, Gone int
	Again                     bool // there was a copy before
}

// HandOn copies files into the folder to, which lies outside the wall: a new
// one, an empty one, or one that holds nothing but an earlier copy. The copy is
// made beside it and swapped in whole; when something is wrong, what was there
// stays. Errors are tiles.Problems.
func (f Folder) HandOn(files fs.FS, to string) (HandedOn, error) {
	before, err := f.mayTake(to)
	if err != nil {
		return HandedOn{}, err
	}
	temp := filepath.Join(filepath.Dir(to), TempPrefix+rand.Text())
	defer os.RemoveAll(temp) // after the swap it is there no more
	after, err := copyInto(temp, files)
	if err != nil {
		return HandedOn{}, Explain(filepath.ToSlash(to), err)
	}
	did := HandedOn{Files: len(after), Again: before != nil}
	for name, sum := range after {
		switch was, there := before[name]; {
		case !there:
			did.New++
		case was != sum:
			did.Changed++
		}
	}
	for name := range before {
		if after[name] == "" {
			did.Gone++
		}
	}
	return did, Explain(filepath.ToSlash(to), swapIn(temp, to))
}

// mayTake says what a folder holds of an earlier copy; nil where it is new or
// empty. Any other is refused: nothing of anybody's is ever written over.
func (f Folder) mayTake(to string) (before map[string]string, err error) {
	refused := func(what, do string) error {
		return tiles.Problems{{File: filepath.ToSlash(to), What: what, Do: do}}
	}
	wall, err := filepath.Abs(f.dir)
	if err != nil {
		return nil, err
	}
	switch parent, err := os.Stat(filepath.Dir(to)); {
	case !filepath.IsAbs(to):
		return nil, refused("does not say where the folder is", "write the whole path, from the drive or from /")
	case within(wall, to) || within(to, wall):
		return nil, refused("is the wall’s own folder, or a part of it", "name a folder elsewhere")
	case err != nil || !parent.IsDir():
		return nil, refused("cannot be made: the folder it would be in is not there", "check the name, or plug the stick in")
	}
	info, err := os.Lstat(to)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil || !info.IsDir():
		return nil, refused("is no folder", "name a new folder")
	}
	return handedBefore(to, refused)
}

func handedBefore(to string, refused func(what, do string) error) (map[string]string, error) {
	before := map[string]string{}
	if list, err := os.ReadFile(filepath.Join(to, HandedList)); err == nil {
		for _, line := range strings.Split(string(list), "\n") {
			if sum, name, ok := strings.Cut(line, " "); ok {
				before[name] = sum
			}
		}
	}
	err := fs.WalkDir(os.DirFS(to), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == HandedList || isNote(d.Name()) {
			return err
		}
		if before[name] == "" {
			return refused(fmt.Sprintf("holds %s, which no earlier copy of the site put there", name), "name a new folder, or an empty one")
		}
		return nil
	})
	if len(before) == 0 {
		before = nil
	}
	return before, err
}

func within(outer, inner string) bool {
	rel, err := filepath.Rel(outer, inner)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// copyInto copies all files into a new folder and lists them with their hashes.
func copyInto(dir string, files fs.FS) (map[string]string, error) {
	sums := map[string]string{}
	if err := os.Mkdir(dir, 0o755); err != nil {
		return nil, err
	}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			return os.MkdirAll(filepath.Join(dir, filepath.FromSlash(name)), 0o755)
		}
		sums[name], err = copyOne(filepath.Join(dir, filepath.FromSlash(name)), files, name)
		return err
	})
	if err != nil {
		return nil, err
	}
	var list bytes.Buffer
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		fmt.Fprintf(&list, "%s %s\n", sums[name], name)
	}
	return sums, os.WriteFile(filepath.Join(dir, HandedList), list.Bytes(), 0o644)
}

func copyOne(to string, files fs.FS, name string) (sum string, err error) {
	from, err := files.Open(name)
	if err != nil {
		return "", err
	}
	defer from.Close()
	file, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return "", err
	}
	defer file.Close()
	hash := sha256.New()
	if _, err := io.Copy(io.MultiWriter(file, hash), from); err != nil {
		return "", err
	}
	if err := store(filepath.Dir(to), file); err != nil {
		return "", err
	}
	return hex.EncodeToString(hash.Sum(nil)[:8]), file.Close()
}

// swapIn puts a folder in the place of another, which goes once it has.
func swapIn(temp, to string) error {
	aside := temp + AsideSuffix
	err := os.Rename(to, aside)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if err := os.Rename(temp, to); err != nil {
		return errors.Join(err, os.Rename(aside, to))
	}
	return os.RemoveAll(aside)
}
