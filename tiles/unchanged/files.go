// Package unchanged remembers files from one run to the next by the hash of
// their bytes, so that a run does again only what its input has changed.
//
// What it remembers is a cache: without it, or where it is wrong, files are
// read and hashed again, and nothing is believed that was not read.
package unchanged

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/twodip/twodip/tiles/folder"
)

// Sum is the SHA-256 (FIPS 180-4) of bytes, in hexadecimal.
func Sum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// entry is what is known of a file.
type entry struct {
	sum  string
	from string // the hash of what the file was made from; "" = not said
	size int64
	time int64 // of its last change, ns
	seen int64 // when its bytes were known, ns, by the clock of the disk it is on
}

// coarse is the coarsest clock of a disk that is common (FAT: 2 s). A file
// changed within that time of being read may be changed again without its size
// or time telling: its hash is taken anew until it has settled.
const coarse = int64(2 * time.Second)

func (e entry) settled() bool { return e.time+coarse < e.seen }

func (e entry) of(info os.FileInfo) bool {
	return info.Mode().IsRegular() && info.Size() == e.size && info.ModTime().UnixNano() == e.time
}

// Files is what is known of the files below a folder. It may be used by
// several goroutines at once.
type Files struct {
	folder string
	file   string // where it is kept
	now    int64  // when this run began, by the disk's clock; 0 = not known, nothing is trusted

	mu    sync.Mutex
	known map[string]entry
	asked map[string]bool // in this run
	moved bool            // what is known is no longer what is kept
}

// Read reads what was kept in a file about the files below a folder. No file,
// or one that cannot be understood, is nothing known. Without a file ("")
// nothing is kept.
func Read(file, dir string) *Files {
	if file == "" {
		return &Files{folder: dir, known: map[string]entry{}, asked: map[string]bool{}}
	}
	f := &Files{folder: dir, file: file, now: clock(file), known: map[string]entry{}, asked: map[string]bool{}}
	if info, err := os.Lstat(file); err == nil && info.Mode().IsRegular() && info.Size() <= mostKept {
		if data, err := os.ReadFile(file); err == nil {
			f.parse(data)
		}
	}
	return f
}

// mostKept bounds what is read of what was kept: the files of the largest wall
// take a tenth of it.
const mostKept = 64 << 20

// clock is the time by the disk that file is on: another machine's disk may
// have another time than ours.
func clock(file string) int64 {
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return 0
	}
	f, err := os.CreateTemp(filepath.Dir(file), folder.TempPrefix)
	if err != nil {
		return 0
	}
	defer os.Remove(f.Name())
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return 0
	}
	return info.ModTime().UnixNano()
}

// Sum is the hash of a file's bytes. The file is read unless its size and the
// time of its last change are what they were when it was read before.
func (f *Files) Sum(name string) (string, error) {
	e, err := f.look(name)
	return e.sum, err
}

// Holds says that a file stands as it was noted, and was made from what has
// the hash from.
func (f *Files) Holds(name, from string) bool {
	if e, ok := f.get(name); !ok || e.from != from || from == "" {
		return false
	}
	return f.stands(name)
}

// Same says that a file stands as it was noted, with bytes of that hash.
func (f *Files) Same(name, sum string) bool {
	if e, ok := f.get(name); !ok || e.sum != sum {
		return false
	}
	return f.stands(name)
}

// stands says that a file's bytes are still those that were noted.
func (f *Files) stands(name string) bool {
	before, _ := f.get(name)
	e, err := f.look(name)
	return err == nil && e.sum == before.sum
}

// look finds what a file's bytes are now. Bytes that are not the noted ones
// were made from something that nobody knows.
func (f *Files) look(name string) (entry, error) {
	e, ok := f.get(name)
	info, err := os.Stat(f.path(name))
	if err != nil {
		return entry{}, err
	}
	if !info.Mode().IsRegular() { // reading a pipe would wait for ever
		return entry{}, &os.PathError{Op: "read", Path: name, Err: os.ErrInvalid}
	}
	if ok && e.of(info) && e.settled() {
		return e, nil
	}
	fresh, err := f.read(name)
	if err != nil {
		return entry{}, err
	}
	if ok && fresh.sum == e.sum {
		fresh.from = e.from
	}
	f.set(name, fresh)
	return fresh, nil
}

// read hashes a file. One that is written to meanwhile is not trusted later.
func (f *Files) read(name string) (entry, error) {
	file, err := os.Open(f.path(name))
	if err != nil {
		return entry{}, err
	}
	defer file.Close()
	before, err := file.Stat()
	if err != nil {
		return entry{}, err
	}
	h := sha256.New()
	if _, err := io.Copy(h, file); err != nil {
		return entry{}, err
	}
	after, err := file.Stat()
	if err != nil {
		return entry{}, err
	}
	e := entry{sum: hex.EncodeToString(h.Sum(nil)), size: after.Size(), time: after.ModTime().UnixNano(), seen: f.now}
	if before.Size() != after.Size() || !before.ModTime().Equal(after.ModTime()) {
		e.seen = 0
	}
	return e, nil
}

// Note notes a file that was just written with bytes of the hash sum, made
// from what has the hash from.
func (f *Files) Note(name, from, sum string) error {
	info, err := os.Stat(f.path(name))
	if err != nil {
		return err
	}
	f.set(name, entry{sum, from, info.Size(), info.ModTime().UnixNano(), f.now})
	return nil
}

func (f *Files) path(name string) string { return filepath.Join(f.folder, filepath.FromSlash(name)) }

func (f *Files) get(name string) (entry, bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.asked[name] = true
	e, ok := f.known[name]
	return e, ok
}

func (f *Files) set(name string, e entry) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.asked[name] = true
	if f.known[name] != e {
		f.known[name], f.moved = e, true
	}
}

// Whole says that every file known stands as it was noted, and that no other
// is in the folder.
func (f *Files) Whole() bool {
	var names []string
	err := filepath.WalkDir(f.folder, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(f.folder, path)
		names = append(names, filepath.ToSlash(rel))
		return err
	})
	if err != nil || len(names) == 0 || len(names) != len(f.known) {
		return false
	}
	for _, name := range names {
		if _, ok := f.get(name); !ok || !f.stands(name) {
			return false
		}
	}
	return true
}

// Next is an empty memory for what is being made in another folder to take the
// place of this one; it is kept where this one is.
func (f *Files) Next(dir string) *Files {
	return &Files{folder: dir, file: f.file, now: f.now, known: map[string]entry{}, asked: map[string]bool{}, moved: true}
}

// Moved says that the folder has another path now.
func (f *Files) Moved(dir string) { f.folder = dir }

// Carry notes that a file, just linked or copied from the folder of was with
// its time, is as it was there, made from what has the hash from.
func (f *Files) Carry(was *Files, name, from string) {
	e, _ := was.get(name)
	e.from = from
	f.set(name, e)
}
