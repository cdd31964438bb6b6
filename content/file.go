package content

import (
	"bytes"
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
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
func readText(dir folder.Folder, file string, limit int64) ([]byte, error) {
	raw, err := dir.Read(file, limit)
	if err != nil {
		return nil, err
	}
	return plainText(file, raw)
}

// plainText takes a byte-order mark away and refuses what is not UTF-8 text.
func plainText(file string, text []byte) ([]byte, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if bytes.HasPrefix(text, []byte(`{\rtf`)) {
		return nil, problem(file, 0, "is a word processor's file", "save it again as plain text, UTF-8")
	}
	if !utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0 {
		return nil, problem(file, 0, "is not text in UTF-8", "save it again as plain text, UTF-8")
	}
	return text, nil
}

// ErrNoWall is the error of a folder without a wall.yaml.
var ErrNoWall = errors.New("this is not a wall's folder")

type notAWall struct{ tiles.Problems }

func (n notAWall) Unwrap() error        { return n.Problems }
func (n notAWall) Is(target error) bool { return target == ErrNoWall }

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
