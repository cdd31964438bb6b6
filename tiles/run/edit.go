package run

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"

	"github.com/twodip/twodip/tiles/folder"
)

// mostEdited bounds a file that a person edits, in bytes.
const mostEdited = 64 << 20

// Edit is a change that a person makes to one file of the wall, to the version
// of it that they saw.
type Edit struct {
	File string // below the wall
	Seen string // the Sum of what they saw
	// Text is the file as it is to be, made of the file as it is; it refuses
	// what could not be read again. The very text it was given is no change.
	Text func(was []byte) ([]byte, error)
}

// ErrStale is the error of an edit to a version that is no longer there: the
// file was changed elsewhere since it was shown.
type ErrStale struct {
	File string
	Now  []byte // as it is now
}

func (e ErrStale) Error() string {
	return fmt.Sprintf("%s was changed elsewhere since this page was opened: nothing is written", e.File)
}

// Sum tells a file's version from every other; that of no file is Sum(nil).
func Sum(text []byte) string {
	if text == nil {
		return "none"
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:8])
}

// Look reads a file for an edit, with its Sum; nil where there is none.
func Look(dir folder.Folder, file string) (text []byte, sum string, err error) {
	text, err = dir.Read(file, mostEdited)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		text, err = nil, nil
	case err == nil && text == nil:
		text = []byte{}
	}
	return text, Sum(text), err
}

// Change makes an edit: under the wall's lock, with the version before kept,
// and only to the version that the person saw; else the error is ErrStale.
func Change(dir folder.Folder, e Edit) error {
	c, err := take(dir)
	if err != nil {
		return err
	}
	defer c.end()
	was, sum, err := Look(dir, e.File)
	if err != nil {
		return err
	}
	if sum != e.Seen {
		return ErrStale{File: e.File, Now: was}
	}
	after, err := e.Text(was)
	if err != nil || (was != nil && bytes.Equal(was, after)) {
		return err
	}
	if err := c.begin(); err != nil {
		return err
	}
	return dir.WriteBytes(e.File, after)
}
