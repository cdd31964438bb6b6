package site

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/unchanged"
)

// output is the site while it is made: a folder beside the one it will replace.
type output struct {
	ctx  context.Context // done: no file is begun any more, and nothing is swapped
	dir  string          // where the site will stand
	temp string          // where it is made
	old  string          // where the site before it waits for the swap

	was *unchanged.Files // what is known of the site that stands
	now *unchanged.Files // of the one that is made

	mu    sync.Mutex
	made  map[string]bool // folders made so far
	files int
	bytes int64
	fresh int // files written, not taken over from the site that stands
}

// begin opens a new site beside dir and clears away what a run that was
// stopped half-way left there. What is known of the old site is kept in the
// file memory.
func begin(ctx context.Context, dir, memory string) (*output, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	beside := filepath.Join(filepath.Dir(dir), folder.TempPrefix+filepath.Base(dir))
	f := &output{ctx: ctx, dir: dir, temp: beside, old: beside + folder.AsideSuffix, made: map[string]bool{}}
	if err := f.mend(); err != nil {
		return nil, err
	}
	f.was = unchanged.Read(memory, f.dir)
	f.now = f.was.Next(f.temp)
	return f, os.MkdirAll(f.temp, 0o755)
}

// mend puts right what a stopped run left: a half-made site goes; a site that
// was moved aside comes back.
func (f *output) mend() error {
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

// swap puts the new site in the old one's place and, where asked, remembers it.
func (f *output) swap(remember bool) error {
	if err := f.ctx.Err(); err != nil {
		return err
	}
	if err := f.exchange(); err != nil {
		return fmt.Errorf("the new site could not take the old one's place: %w", err)
	}
	f.now.Moved(f.dir)
	if remember {
		_ = f.now.Save() // the site is there; without the memory the next one is made anew
	}
	return nil
}

// exchange swaps at one stroke where the system can exchange two folders, else
// in two, and mend puts right what is stopped between them.
func (f *output) exchange() error {
	if exchange(f.temp, f.dir) == nil {
		return os.RemoveAll(f.temp)
	}
	return f.swapByMoving()
}

func (f *output) swapByMoving() error {
	err := os.Rename(f.dir, f.old)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%w (is a file of it open in another program?)", err)
	}
	if err := os.Rename(f.temp, f.dir); err != nil {
		return errors.Join(err, os.Rename(f.old, f.dir))
	}
	_ = os.RemoveAll(f.old) // where one of its files is open elsewhere, the next run clears it away
	return nil
}

// abandon removes what swap has not used.
func (f *output) abandon() { os.RemoveAll(f.temp) }

// path makes the folders that a file of the site needs and returns its path.
// Every file comes through here.
func (f *output) path(name string) (string, error) {
	if err := f.ctx.Err(); err != nil {
		return "", err
	}
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
func (f *output) write(name string, data []byte) error { return f.put(name, "", data) }

// put writes one file that was made from what has the hash from. Where the
// same bytes stand already the old file is taken over, so that its time tells
// a program that copies the site that there is nothing to copy.
func (f *output) put(name, from string, data []byte) error {
	sum := unchanged.Sum(data)
	if f.was.Same(name, sum) && f.carry(name, from) {
		return nil
	}
	full, err := f.path(name)
	if err != nil {
		return err
	}
	f.count(int64(len(data)), true)
	if err := os.WriteFile(full, data, 0o644); err != nil {
		return err
	}
	return f.now.Note(name, from, sum)
}

// reuse takes over a file of the old site that was made from the same, and
// says whether there is one.
func (f *output) reuse(name, from string) bool {
	return f.was.Holds(name, from) && f.carry(name, from)
}

// carry takes a file of the old site over into the new one.
func (f *output) carry(name, from string) bool {
	full, err := f.path(name)
	if err != nil {
		return false
	}
	size, err := nameAgain(filepath.Join(f.dir, filepath.FromSlash(name)), full)
	if err != nil {
		return false
	}
	f.count(size, false)
	f.now.Carry(f.was, name, from)
	return true
}

// take puts a file of the wall, whose bytes have the hash sum, into the site.
func (f *output) take(name, from, sum string) error {
	full, err := f.path(name)
	if err != nil {
		return err
	}
	size, err := nameAgain(from, full)
	if err != nil {
		return err
	}
	f.count(size, !f.was.Same(name, sum))
	return f.now.Note(name, "", sum)
}

// nameAgain gives a file a nameAgain name where the disk can do that, and elsewhere
// copies it with its time. It returns the file's size.
func nameAgain(from, to string) (int64, error) {
	info, err := os.Stat(from)
	if err != nil {
		return 0, err
	}
	if os.Link(from, to) == nil {
		return info.Size(), nil
	}
	data, err := os.ReadFile(from)
	if err != nil {
		return 0, err
	}
	if err := os.WriteFile(to, data, 0o644); err != nil {
		return 0, err
	}
	return info.Size(), os.Chtimes(to, info.ModTime(), info.ModTime())
}

func (f *output) count(size int64, fresh bool) {
	f.mu.Lock()
	f.files++
	f.bytes += size
	if fresh {
		f.fresh++
	}
	f.mu.Unlock()
}
