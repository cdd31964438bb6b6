package folder

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// mostLine bounds the line that a crash may have left half-written, in bytes.
const mostLine = 64 << 10

// Append puts lines below a file, and onto the disk before it returns; a file
// that is not there is begun with the head. What a crash left of a line without
// its end is taken away first (Lines leaves it out); on an error the file is as
// it was. Only one may append at a time.
func (f Folder) Append(name string, head, lines []byte) error {
	root, err := f.open()
	if err != nil {
		return Explain(f.Shown(name), err)
	}
	defer root.Close()
	local := filepath.FromSlash(name)
	if err := root.MkdirAll(filepath.Dir(local), 0o755); err != nil {
		return Explain(f.Shown(name), err)
	}
	if err := isFile(root, local); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return Explain(f.Shown(name), err)
	}
	file, err := root.OpenFile(local, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return Explain(f.Shown(name), err)
	}
	defer file.Close()
	if err := appendTo(root.Name(), file, head, lines); err != nil {
		return Explain(f.Shown(name), err)
	}
	syncFolder(root, filepath.Dir(local))
	return nil
}

func appendTo(dir string, file *os.File, head, lines []byte) error {
	end, err := lastEnd(file)
	if err != nil {
		return err
	}
	text := lines
	if end == 0 {
		text = append(bytes.Clone(head), lines...)
	}
	if err = file.Truncate(end); err == nil {
		_, err = file.WriteAt(text, end)
	}
	if err == nil {
		err = store(dir, file)
	}
	if err != nil {
		_ = file.Truncate(end)
	}
	return err
}

// lastEnd is where the last whole line of a file ends.
func lastEnd(file *os.File) (int64, error) {
	info, err := file.Stat()
	if err != nil {
		return 0, err
	}
	from := max(0, info.Size()-mostLine)
	tail, err := io.ReadAll(io.NewSectionReader(file, from, mostLine))
	if err != nil {
		return 0, err
	}
	at := bytes.LastIndexByte(tail, '\n')
	if at < 0 && from > 0 {
		return 0, fs.ErrInvalid // no file that lines were appended to
	}
	return from + int64(at) + 1, nil
}

// Lines reads a file that is appended to, its whole lines alone.
func (f Folder) Lines(name string, limit int64) ([]byte, error) {
	text, err := f.Read(name, limit)
	return text[:bytes.LastIndexByte(text, '\n')+1], err
}
