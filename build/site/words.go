package site

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// The words people search with stand in the theme, where a school that teaches
// in another language replaces them.
const wordsFile = "words.csv"

// wordKinds says what a word of the table may do.
var wordKinds = []string{"stop", "break", "and", "or", "not", "over", "under", "then", "after", "first", "second", "alone", "twice",
	"food", "harm", "ware", "liner", "near", "cone", "load", "number", "runs", "crawls", "gloves", "faults", "mottled", "even",
	"ready", "photo", "due", "same", "text", "color", "tone"}

// wordRow is one row of the words table as the browser's script reads it.
type wordRow struct {
	Does  string      `json:"does"`
	Words []string    `json:"words"`
	Is    []string    `json:"is,omitempty"`
	Box   *[6]float64 `json:"box,omitempty"` // lightness, chroma, hue: from and to, each
}

// wordBox is the largest region: any color.
var wordBox = [6]float64{0, 100, 0, 200, 0, 360}

// readWords reads the words table of a theme.
func readWords(theme fs.FS) ([]wordRow, error) {
	src, err := fs.ReadFile(theme, wordsFile)
	if err != nil {
		return nil, err
	}
	t, err := table.Read("themes/"+wordsFile, bytes.NewReader(src))
	if err != nil {
		return nil, err
	}
	if ps := t.Need("does", "words"); len(ps) > 0 {
		return nil, ps
	}
	var rows []wordRow
	var ps tiles.Problems
	for _, r := range t.Data() {
		row, err := wordOf(t, r)
		if err != nil {
			p := t.Problem(r.Line, err.Error(), "see the head of the built-in table: twodip build --take words.csv")
			p.Page = "mend that line, or move " + t.File + " away: the built-in words are used then"
			ps = append(ps, p)
		}
		rows = append(rows, row)
	}
	return rows, ps.OrNil()
}

func wordOf(t *table.Table, r table.Row) (wordRow, error) {
	row := wordRow{Does: t.Cell(r, "does"), Words: wordList(t.Cell(r, "words")), Is: wordList(t.Cell(r, "is"))}
	if !slices.Contains(wordKinds, row.Does) {
		return row, fmt.Errorf("%q is nothing a word can do", row.Does)
	}
	if len(row.Words) == 0 {
		return row, errors.New("words is empty")
	}
	if row.Does == "color" || row.Does == "tone" {
		box := wordBox
		bare := true
		for k, name := range []string{"lightness", "chroma", "hue"} {
			cell := t.Cell(r, name)
			if cell == "" {
				continue
			}
			bare = false
			var err error
			if box[2*k], box[2*k+1], err = wordRange(cell, box[2*k], box[2*k+1]); err != nil {
				return row, fmt.Errorf("%s %w", name, err)
			}
		}
		if !bare {
			row.Box = &box
		} else if len(row.Is) == 0 {
			return row, errors.New("a color needs a region or the plain name it is")
		}
	}
	return row, nil
}

func wordList(cell string) []string {
	var list []string
	for _, w := range strings.Split(strings.ToLower(cell), ";") {
		if w = strings.Join(strings.Fields(w), " "); w != "" {
			list = append(list, w)
		}
	}
	return list
}

// wordRange reads "20-60", "20-" and "-60".
func wordRange(cell string, least, most float64) (from, to float64, err error) {
	a, b, ok := strings.Cut(cell, "-")
	from, to = least, most
	if a != "" {
		from, err = strconv.ParseFloat(a, 64)
	}
	if err == nil && b != "" {
		to, err = strconv.ParseFloat(b, 64)
	}
	if !ok || err != nil || math.Min(from, to) < least || math.Max(from, to) > most {
		return 0, 0, fmt.Errorf("is %q: write it as 20-60, 20- or -60, from %g to %g", cell, least, most)
	}
	return from, to, nil
}
