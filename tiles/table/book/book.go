// Package book reads a spreadsheet's own file, .xlsx or .ods, as the table that
// the spreadsheet shows: the first sheet that holds anything, each cell as it is
// written on the screen. Nothing is ever written in these forms.
package book

import (
	"bytes"
	"encoding/csv"
	"path"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// Limits of a file before it is opened. A spreadsheet of a million empty rows is
// a few kilobytes: what is read is bounded as it is read.
const (
	mostBytes    = 16 << 20 // of the file
	mostUnpacked = 64 << 20 // of what is packed in it
)

// Is says that a file of that name is a spreadsheet's own form that can be read.
func Is(name string) bool {
	ext := strings.ToLower(path.Ext(name))
	return ext == ".xlsx" || ext == ".ods"
}

// CSV is the table that the spreadsheet shows, as UTF-8 text with a line for
// each row, so that a line of it is the row of that number. file is for the
// messages. Errors are tiles.Problems.
func CSV(file string, data []byte) ([]byte, error) {
	if len(data) > mostBytes {
		return nil, problem(file, "is larger than 16 MB", "check that it is the file you mean")
	}
	read := readXLSX
	if strings.EqualFold(path.Ext(file), ".ods") {
		read = readODS
	}
	rows, err := read(data)
	switch {
	case err == errTooLarge:
		return nil, problem(file, "holds more than a glaze list or a log can", "check that it is the file you mean")
	case err != nil:
		return nil, problem(file, "cannot be read as a spreadsheet", `open it in the spreadsheet and save it again, or save it as "CSV UTF-8"`)
	}
	return text(rows)
}

func text(rows [][]string) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	for _, row := range rows {
		for i, cell := range row {
			row[i] = strings.Join(strings.Fields(cell), " ")
		}
		for len(row) > 0 && row[len(row)-1] == "" {
			row = row[:len(row)-1]
		}
		if len(row) == 0 {
			row = []string{""} // an empty line is no line to a reader of CSV
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return out.Bytes(), w.Error()
}

func problem(file, what, do string) tiles.Problems {
	return tiles.Problems{{File: file, What: what, Do: do}}
}

// sheet gathers rows up to what a table may hold.
type sheet struct {
	rows  [][]string
	cells int
}

// add takes one row; errTooLarge past the limits of a table.
func (s *sheet) add(row []string) error {
	s.cells += len(row)
	if len(row) > table.MaxColumns || len(s.rows) >= table.MaxRows || s.cells > 2_000_000 {
		return errTooLarge
	}
	s.rows = append(s.rows, row)
	return nil
}

// holds says that there is anything in the rows.
func (s *sheet) holds() bool {
	for _, row := range s.rows {
		for _, cell := range row {
			if strings.TrimSpace(cell) != "" {
				return true
			}
		}
	}
	return false
}
