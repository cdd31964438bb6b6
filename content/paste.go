package content

import (
	"bytes"
	"encoding/csv"
	"strings"

	"github.com/twodip/twodip/tiles/table"
	"github.com/twodip/twodip/tiles/table/book"
)

// mostPasted bounds the rows that are taken at once: more than a wall has.
const mostPasted = 2 * MaxGlazes

// PastedList takes the cells that a person copied out of a spreadsheet, or
// typed: rows in lines, cells parted by tabs, semicolons or commas, below
// headings or without. Errors are tiles.Problems.
func PastedList(text string) ([]ListRow, error) {
	in := csv.NewReader(strings.NewReader(strings.NewReplacer("\x00", "", "\ufeff", "", "\r\n", "\n", "\r", "\n").Replace(text)))
	in.FieldsPerRecord, in.LazyQuotes = -1, true
	line, _, _ := strings.Cut(text, "\n")
	for _, comma := range "\t;," {
		if strings.ContainsRune(line, comma) {
			in.Comma = comma
			break
		}
	}
	records, err := in.ReadAll()
	if err != nil {
		return nil, problem("what was pasted", 0, "cannot be read as rows", "copy the cells in the spreadsheet once more, or type the rows")
	}
	return listOfCells("what was pasted", records)
}

// BroughtList takes the glazes out of a spreadsheet's file, by its name's ending:
// .csv, .tsv, .txt, .xlsx or .ods. Errors are tiles.Problems.
func BroughtList(name string, data []byte) ([]ListRow, error) {
	if book.Is(name) {
		var err error
		if data, err = book.CSV(name, data); err != nil {
			return nil, err
		}
	}
	t, err := table.Read(name, bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	records := [][]string{t.Columns}
	for _, r := range t.Data() {
		records = append(records, r.Cells)
	}
	return listOfCells(name, records)
}

// headingOf is the heading of ours that a heading means.
func headingOf(cell string) (string, bool) {
	cell = strings.ToLower(tidy(cell))
	switch cell {
	case "glaze", "glaze name":
		return "name", true
	case "colour", "fired color", "fired colour":
		return "color", true
	case "specific gravity":
		return "sg", true
	case "trait":
		return "traits", true
	case "caution":
		return "cautions", true
	}
	for _, name := range ListColumns {
		if cell == name {
			return name, true
		}
	}
	return cell, false
}

// listOfCells gives cells their columns: by the headings above them, or, where
// there are none, a column of codes and one of names, the rest being notes.
func listOfCells(file string, records [][]string) ([]ListRow, error) {
	if len(records) > mostPasted {
		return nil, problem(file, 0, "has more rows than a wall has glazes", "check that it is the list you mean")
	}
	var headings []string
	if len(records) > 0 {
		headings = headingsIn(records[0])
	}
	if headings != nil {
		records = records[1:]
	} else {
		headings = guessHeadings(records)
	}
	var rows []ListRow
	for _, record := range records {
		r := ListRow{Of: -1, Cells: map[string]string{}}
		for i, cell := range record {
			if i >= len(headings) || headings[i] == "" {
				continue
			}
			r.Cells[headings[i]] = tidy(r.Cells[headings[i]] + " " + table.Unguard(cell))
		}
		if !r.blank() {
			rows = append(rows, r)
		}
	}
	if len(rows) == 0 {
		return nil, problem(file, 0, "holds no glaze", "copy rows with a name each, and a code where they have one")
	}
	return rows, nil
}

// headingsIn are the headings of a first row; nil = it is a glaze already.
func headingsIn(record []string) []string {
	var out []string
	named := false
	for _, cell := range record {
		name, ours := headingOf(cell)
		named = named || ours && (name == "name" || name == "code")
		out = append(out, name)
	}
	if !named {
		return nil
	}
	return out
}

func guessHeadings(records [][]string) []string {
	wide := 0
	for _, r := range records {
		wide = max(wide, len(r))
	}
	codes := -1
	for c := range min(wide, 2) {
		if wide > 1 && codes < 0 && areCodes(records, c) {
			codes = c
		}
	}
	out := make([]string, wide)
	for c := range out {
		switch {
		case c == codes:
			out[c] = "code"
		case c == 0 || c == 1 && codes == 0:
			out[c] = "name"
		default:
			out[c] = "notes"
		}
	}
	return out
}

// areCodes says that every cell of a column could be a code.
func areCodes(records [][]string, column int) bool {
	for _, r := range records {
		if column >= len(r) || !isCode(tidy(r[column])) {
			return false
		}
	}
	return len(records) > 0
}

// Merged lays rows over a list: one whose code the list has fills in what it
// says, and the others go behind the last that is not blank.
func Merged(rows, more []ListRow) (all []ListRow, filled, added int) {
	for _, r := range rows {
		if r.Of >= 0 || !r.blank() {
			all = append(all, r)
		}
	}
	for _, m := range more {
		at := -1
		for i, r := range all {
			if code := m.Cell("code"); code != "" && strings.EqualFold(code, r.Cell("code")) {
				at = i
			}
		}
		if at < 0 {
			all, added = append(all, m), added+1
			continue
		}
		filled++
		for name, v := range m.Cells {
			if v != "" {
				all[at].set(name, v)
			}
		}
	}
	return all, filled, added
}

// set writes a cell below its heading, whatever the case it is written in.
func (r ListRow) set(name, value string) {
	for heading := range r.Cells {
		if strings.EqualFold(strings.TrimSpace(heading), name) {
			name = heading
		}
	}
	r.Cells[name] = value
}
