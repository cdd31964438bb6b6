package content

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"github.com/twodip/twodip/tiles"
)

// Limits of a written file, checked before it is read whole. The largest that
// is let in (a glaze list as YAML) took the program to 151 MB
// (TestMemoryOfTexts in cmd/twodip).
const (
	maxYAML = 1 << 20
	maxPage = 1 << 20
)

func problem(file string, line int, what, do string) tiles.Problems {
	return tiles.Problems{{File: file, Line: line, What: what, Do: do}}
}

// readText reads a text file of the wall.
func readText(dir, file string, limit int64) ([]byte, error) {
	raw, err := readFile(dir, file, limit)
	if err != nil {
		return nil, err
	}
	return plainText(file, raw)
}

// readFile reads a file of the wall whole. It follows no link out of the wall:
// what is read here may be published.
func readFile(dir, file string, limit int64) ([]byte, error) {
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, cannotRead(filepath.ToSlash(dir), err)
	}
	defer root.Close()
	info, err := root.Stat(filepath.FromSlash(file))
	if err != nil {
		return nil, cannotRead(file, err)
	}
	if !info.Mode().IsRegular() { // opening a pipe would wait for ever
		return nil, problem(file, 0, "is not a file", "move it away")
	}
	f, err := root.Open(filepath.FromSlash(file))
	if err != nil {
		return nil, cannotRead(file, err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, cannotRead(file, err)
	}
	if int64(len(text)) > limit {
		return nil, problem(file, 0, fmt.Sprintf("is larger than %d MB", limit>>20), "check that it is the file you mean")
	}
	return text, nil
}

// plainText takes a byte-order mark away and refuses what is not UTF-8 text.
func plainText(file string, text []byte) ([]byte, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if !utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0 {
		return nil, problem(file, 0, "is not text in UTF-8", "save it again as plain text, UTF-8")
	}
	return text, nil
}

// errMissing lets a caller tell a file that is not there from one that is wrong.
var errMissing = errors.New("is not there")

func cannotRead(file string, err error) error {
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return missing{problem(file, 0, "is not there", "")}
	case errors.Is(err, fs.ErrPermission):
		return problem(file, 0, "you may not read this file", "ask its owner for the right to read it")
	case errors.As(err, &p) && strings.Contains(p.Err.Error(), "escapes"):
		return problem(file, 0, "is a link to a place outside the wall's folder", "put the file itself here")
	case errors.As(err, &p):
		err = p.Err
	}
	return problem(file, 0, "cannot be read: "+err.Error(), "")
}

// missing is the problem of a file that is not there.
type missing struct{ tiles.Problems }

func (m missing) Unwrap() error        { return m.Problems }
func (m missing) Is(target error) bool { return target == errMissing }

// ErrNoWall is the error of a folder without a wall.yaml.
var ErrNoWall = errors.New("this is not a wall's folder")

type notAWall struct{ tiles.Problems }

func (n notAWall) Unwrap() error        { return n.Problems }
func (n notAWall) Is(target error) bool { return target == ErrNoWall }

func noWall(dir string, err error) error {
	if errors.Is(err, errMissing) {
		return notAWall{problem(SettingsFile, 0, "is not in "+filepath.ToSlash(dir)+": this is not a wall's folder",
			"name the folder with --wall, or make one with: twodip start my-wall")}
	}
	return err
}

// tidy makes a word or sentence of a person safe to show anywhere: composed
// Unicode, one space between words, no control characters, and none of the
// marks that turn the direction of the text after them.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), r == utf8.RuneError, r == '\u2028', r == '\u2029',
			'\u202a' <= r && r <= '\u202e', '\u2066' <= r && r <= '\u2069', r == '\ufeff':
			return -1
		}
		return r
	}, s)
	return norm.NFC.String(strings.Join(strings.Fields(s), " "))
}
