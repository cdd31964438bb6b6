package site

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sync"

	"github.com/twodip/twodip/tiles/record"
)

// folder is the site while it is made: a folder beside the one it will replace.
type folder struct {
	dir  string // where the site will stand
	temp string // where it is made
	old  string // where the site before it waits for the swap

	mu    sync.Mutex
	made  map[string]bool // folders made so far
	files int
	bytes int64
}

// begin opens a new site beside dir and clears away what a run that was
// stopped half-way left there.
func begin(dir string) (*folder, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	beside := filepath.Join(filepath.Dir(dir), record.TempPrefix+filepath.Base(dir))
	f := &folder{dir: dir, temp: beside, old: beside + record.AsideSuffix, made: map[string]bool{}}
	if err := f.mend(); err != nil {
		return nil, err
	}
	return f, os.MkdirAll(f.temp, 0o755)
}

// mend puts right what a stopped run left: a half-made site goes; a site that
// was moved aside comes back.
func (f *folder) mend() error {
	if err := os.RemoveAll(f.temp); err != nil {
		return err
	}
	if _, err := os.Stat(f.dir); errors.Is(err, os.ErrNotExist) {
		if err := os.Rename(f.old, f.dir); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return os.RemoveAll(f.old)
}

// swap puts the new site in the old one's place: at one stroke where the
// system can exchange two folders, else in two, and mend puts right what is
// stopped between them.
func (f *folder) swap() error {
	if exchange(f.temp, f.dir) == nil {
		return os.RemoveAll(f.temp)
	}
	return f.swapByMoving()
}

func (f *folder) swapByMoving() error {
	err := os.Rename(f.dir, f.old)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%w (is a file of it open in another program?)", err)
	}
	if err := os.Rename(f.temp, f.dir); err != nil {
		return errors.Join(err, os.Rename(f.old, f.dir))
	}
	return os.RemoveAll(f.old)
}

// abandon removes what swap has not used.
func (f *folder) abandon() { os.RemoveAll(f.temp) }

// path makes the folders that a file of the site needs and returns its path.
func (f *folder) path(name string) (string, error) {
	full := filepath.Join(f.temp, filepath.FromSlash(name))
	dir := filepath.Dir(full)
	f.mu.Lock()
	defer f.mu.Unlock()
	if !f.made[dir] {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return "", err
		}
		f.made[dir] = true
	}
	return full, nil
}

// write writes one file of the site; name has forward slashes.
func (f *folder) write(name string, data []byte) error {
	full, err := f.path(name)
	if err != nil {
		return err
	}
	f.count(int64(len(data)))
	return os.WriteFile(full, data, 0o644)
}

// render writes what a function writes.
func (f *folder) render(name string, to func(io.Writer) error) error {
	var b bytes.Buffer
	if err := to(&b); err != nil {
		return err
	}
	return f.write(name, b.Bytes())
}

// take puts a file of the wall into the site: as a second name of the same
// bytes where the disk can do that, as a copy elsewhere.
func (f *folder) take(name, from string, size int64) error {
	full, err := f.path(name)
	if err != nil {
		return err
	}
	f.count(size)
	if os.Link(from, full) == nil {
		return nil
	}
	data, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	return os.WriteFile(full, data, 0o644)
}

func (f *folder) count(size int64) {
	f.mu.Lock()
	f.files++
	f.bytes += size
	f.mu.Unlock()
}
