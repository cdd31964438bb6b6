package unchanged

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles/folder"
)

// heading is the first line of what is kept. After it comes one file a line:
// hash, hash of what it was made from, size, times, name; parted by tabs.
const heading = "twodip: hashes of files; a cache, may be deleted at any time"

// Save keeps what is known for the next run, without files that are gone.
func (f *Files) Save() error {
	if f.file == "" {
		return nil
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	for name := range f.known {
		if f.asked[name] {
			continue
		}
		if _, err := os.Stat(f.path(name)); err != nil {
			delete(f.known, name)
			f.moved = true
		}
	}
	if !f.moved {
		return nil
	}
	f.moved = false
	// Its folder was made when it was read: a wall that was renamed since is not
	// to come up again, empty, under its old name.
	if _, err := os.Stat(filepath.Dir(f.file)); err != nil {
		return err
	}
	return folder.WriteFile(f.file, f.write)
}

func (f *Files) write(w io.Writer) error {
	if _, err := fmt.Fprintln(w, heading); err != nil {
		return err
	}
	var line []byte
	for _, name := range slices.Sorted(maps.Keys(f.known)) {
		e := f.known[name]
		line = append(append(append(append(line[:0], e.sum...), '\t'), e.from...), '\t')
		for _, v := range []int64{e.size, e.time, e.seen} {
			line = append(strconv.AppendInt(line, v, 10), '\t')
		}
		line = append(strconv.AppendQuote(line, name), '\n')
		if _, err := w.Write(line); err != nil {
			return err
		}
	}
	return nil
}

// parse reads what Save wrote. Whatever is not just that is nothing known.
func (f *Files) parse(data []byte) {
	head, rest, _ := bytes.Cut(data, []byte("\n"))
	if string(head) != heading || !bytes.HasSuffix(data, []byte("\n")) {
		return
	}
	for line := range strings.Lines(string(rest)) {
		name, e, ok := parseLine(strings.TrimSuffix(line, "\n"))
		if !ok {
			clear(f.known)
			return
		}
		f.known[name] = e
	}
}

func parseLine(line string) (name string, e entry, ok bool) {
	cells := strings.SplitN(line, "\t", 6)
	if len(cells) != 6 || len(cells[0]) != 64 {
		return "", e, false
	}
	e.sum, e.from = cells[0], cells[1]
	for i, to := range []*int64{&e.size, &e.time, &e.seen} {
		v, err := strconv.ParseInt(cells[2+i], 10, 64)
		if err != nil {
			return "", e, false
		}
		*to = v
	}
	name, err := strconv.Unquote(cells[5])
	return name, e, err == nil
}
