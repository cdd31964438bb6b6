package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"

	"github.com/twodip/twodip/tiles"
)

// Limits of a table, checked before memory is taken. At the limits the program
// was measured to take 52 MB (a log of 180,000 short rows) to 223 MB (one cell
// of 15 MB); see TestMemoryOfTexts in cmd/twodip.
const (
	MaxBytes   = 16 << 20
	MaxColumns = 200
	MaxRows    = 200_000
	maxCells   = 4_000_000

	// "Total number of characters that a cell can contain: 32,767 characters"
	// (Microsoft, Excel specifications and limits).
	maxCell = 32_767
)

// Read reads a table. Errors are tiles.Problems of the named file.
func Read(file string, r io.Reader) (*Table, error) {
	t := &Table{File: file}
	if err := t.readAll(r); err != nil {
		return nil, err
	}
	return t, nil
}

// Each reads a table without keeping its rows: headed gets the table when its
// headings are read, each gets every row that is neither a remark nor blank.
// An error of theirs ends the reading and is returned.
func Each(file string, r io.Reader, headed func(*Table) error, each func(Row) error) error {
	t := &Table{File: file, each: each}
	t.headed = func(t *Table) error {
		if ps := t.twice(); len(ps) > 0 {
			return ps
		}
		return headed(t)
	}
	return t.readAll(r)
}

func (t *Table) readAll(r io.Reader) error {
	text, err := t.text(r)
	if err != nil {
		return err
	}
	text, skipped := t.separator(text)
	if line := tooWide(text, byte(t.comma)); line > 0 {
		return t.large(line + skipped)
	}
	if err := t.parse(text, skipped); err != nil {
		return err
	}
	if t.Columns == nil {
		return t.fail(0, "the file is empty", "the first row must hold the headings")
	}
	return t.twice().OrNil()
}

func (t *Table) fail(line int, what, do string) error {
	return tiles.Problems{t.Problem(line, what, do)}
}

// text reads all of r as UTF-8 without a byte-order mark.
func (t *Table) text(r io.Reader) ([]byte, error) {
	raw, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, t.fail(0, "cannot be read: "+err.Error(), "")
	}
	if len(raw) > MaxBytes {
		return nil, t.fail(0, fmt.Sprintf("is larger than %d MB", MaxBytes>>20), "check that it is the file you mean")
	}
	if form, do := formOf(raw); form != "" {
		return nil, t.fail(0, "is "+form+" and no CSV", do)
	}
	plain, _, err := transform.Bytes(unicode.BOMOverride(transform.Nop), raw)
	if err != nil {
		return nil, t.fail(0, "cannot be read as text", `save it again as "CSV UTF-8"`)
	}
	t.mark = len(plain) != len(raw)         // a mark was there, in UTF-8 or UTF-16
	plain = bytes.TrimLeft(plain, "\ufeff") // some programs write the mark twice
	if !utf8.Valid(plain) {
		return nil, t.fail(firstInvalid(plain), "holds letters that are not UTF-8", `save it again as "CSV UTF-8"`)
	}
	if i := bytes.IndexByte(plain, 0); i >= 0 {
		return nil, t.fail(1+bytes.Count(plain[:i], []byte("\n")), "is not a text file", `save the spreadsheet as "CSV UTF-8"`)
	}
	t.crlf = bytes.Contains(plain, []byte("\r\n"))
	if !t.crlf && !bytes.Contains(plain, []byte("\n")) {
		plain = bytes.ReplaceAll(plain, []byte("\r"), []byte("\n"))
	}
	return plain, nil
}

// formOf knows by its first bytes what is taken for a table by mistake.
func formOf(raw []byte) (form, do string) {
	const save = `open it in the spreadsheet and save it as "CSV UTF-8"`
	for _, f := range []struct{ begins, form, do string }{
		{"PK\x03\x04", "a spreadsheet's own file", save},
		{"\xd0\xcf\x11\xe0", "an old spreadsheet's own file", save},
		{"%PDF-", "a PDF", "give the table that it was printed from"},
		{"\xff\xd8\xff", "a picture", "type its rows into a table"},
		{"\x89PNG", "a picture", "type its rows into a table"},
		{"{\\rtf", "a word processor's file", save},
	} {
		if bytes.HasPrefix(raw, []byte(f.begins)) {
			return f.form, f.do
		}
	}
	return "", ""
}

func firstInvalid(text []byte) int {
	line := 1
	for len(text) > 0 {
		r, size := utf8.DecodeRune(text)
		if r == utf8.RuneError && size == 1 {
			break
		}
		if r == '\n' {
			line++
		}
		text = text[size:]
	}
	return line
}

var sepLine = regexp.MustCompile(`^(?i:sep=)([,;\t])\r?\n`)

// separator finds what stands between the cells, by the headings; a "sep=;"
// line that some spreadsheets write says it outright and is taken away.
func (t *Table) separator(text []byte) (rest []byte, skipped int) {
	if m := sepLine.FindSubmatch(text); m != nil {
		t.comma = rune(m[1][0])
		return text[len(m[0]):], 1
	}
	t.comma = likeliest(skipRemarks(text))
	return text, 0
}

// likeliest is the separator that the headings hold most of.
func likeliest(headings []byte) rune {
	best := ','
	seen := separators(headings)
	for _, c := range ",;\t" {
		if seen[c] > seen[best] {
			best = c
		}
	}
	return best
}

// skipRemarks gives the text from its first line that is no remark and not blank.
func skipRemarks(text []byte) []byte {
	for len(text) > 0 {
		line, rest, _ := bytes.Cut(text, []byte("\n"))
		trimmed := bytes.Trim(line, "\" \t\r,;")
		if len(trimmed) > 0 && !isRemark(string(trimmed)) {
			break
		}
		text = rest
	}
	return text
}

// separators counts what may stand between cells, up to the first line end
// outside quotation marks.
func separators(text []byte) map[rune]int {
	seen := map[rune]int{}
	quoted := false
	for _, b := range text {
		switch {
		case b == '"':
			quoted = !quoted
		case quoted:
		case b == '\n':
			return seen
		case b == ',' || b == ';' || b == '\t':
			seen[rune(b)]++
		}
	}
	return seen
}

// isRemark: a hash and a space. "#7" is somebody's number, not a remark.
func isRemark(cell string) bool {
	return strings.HasPrefix(cell, "# ") || strings.TrimRight(cell, " \t\r\n") == "#"
}

func (t *Table) parse(text []byte, skipped int) error {
	in := csv.NewReader(bytes.NewReader(text))
	in.Comma, in.FieldsPerRecord = t.comma, -1
	cells, rows, next := 0, 0, 1
	for {
		record, err := in.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return t.csvProblem(err, skipped)
		}
		line, _ := in.FieldPos(0)
		if cells += len(record); cells > maxCells || len(record) > MaxColumns || rows >= MaxRows {
			return t.large(line + skipped)
		}
		if i := tooLong(record); i >= 0 {
			return t.fail(line+skipped, fmt.Sprintf("a cell holds %d letters, and a spreadsheet takes up to %d", utf8.RuneCountInString(record[i]), maxCell),
				"look for a quotation mark that is opened and not closed, or shorten the cell")
		}
		if rows++; line > next {
			t.addBlank(next + skipped)
		}
		next = line + 1 + strings.Count(strings.Join(record, ""), "\n")
		if err := t.add(Row{Line: line + skipped, Cells: record}); err != nil {
			return err
		}
	}
}

func (t *Table) large(line int) error {
	return t.fail(line, fmt.Sprintf("the table is larger than %d rows or %d columns", MaxRows, MaxColumns), "check that it is the file you mean")
}

// tooWide finds the line of the first row with more cells than a table may have,
// before memory is taken for them; 0 = none.
func tooWide(text []byte, comma byte) int {
	line, begun, cells, quoted := 1, 1, 1, false
	for _, b := range text {
		switch {
		case b == '"':
			quoted = !quoted
		case b == '\n':
			line++
			if !quoted {
				cells, begun = 1, line
			}
		case b == comma && !quoted:
			if cells++; cells > MaxColumns {
				return begun
			}
		}
	}
	return 0
}

// tooLong finds a cell that no spreadsheet takes; -1 = none.
func tooLong(record []string) int {
	return slices.IndexFunc(record, func(cell string) bool { return len(cell) > maxCell && utf8.RuneCountInString(cell) > maxCell })
}

// addBlank keeps one blank row where the file has empty lines.
func (t *Table) addBlank(line int) {
	if t.Columns != nil && t.each == nil {
		t.Rows = append(t.Rows, Row{Line: line, Remark: true})
	}
}

// add takes the next record: a remark, the headings, or a row.
func (t *Table) add(r Row) error {
	for i, c := range r.Cells {
		r.Cells[i] = clean.Replace(c)
	}
	r.Remark = blank(r.Cells) || isRemark(r.Cells[0])
	for i, c := range r.Cells {
		if !r.Remark && t.comma != ',' && strings.Contains(c, ",") && number.MatchString(c) {
			t.decimalComma = true
		}
		r.Cells[i] = Unguard(c)
	}
	switch {
	case t.Columns == nil && r.Remark:
		t.before = append(t.before, r)
	case t.Columns == nil:
		t.Columns, t.Line = oneLine(r.Cells), r.Line
		if t.headed != nil {
			return t.headed(t)
		}
	case !r.Remark && len(r.Cells) > len(t.Columns) && !blank(r.Cells[len(t.Columns):]):
		return t.fail(r.Line, fmt.Sprintf("has %d cells below %d headings", len(r.Cells), len(t.Columns)),
			fmt.Sprintf("put quotation marks round a cell that holds a %s", t.commaName()))
	case t.each == nil:
		t.Rows = append(t.Rows, r)
	case !r.Remark:
		return t.each(r)
	}
	return nil
}

// oneLine writes headings that a spreadsheet wrapped in one line each.
func oneLine(headings []string) []string {
	for i, h := range headings {
		headings[i] = strings.Join(strings.Fields(h), " ")
	}
	return headings
}

func (t *Table) commaName() string {
	switch t.comma {
	case ';':
		return "semicolon"
	case '\t':
		return "tab"
	}
	return "comma"
}

func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

func (t *Table) csvProblem(err error, skipped int) error {
	var parse *csv.ParseError
	if !errors.As(err, &parse) {
		return t.fail(0, "cannot be read: "+err.Error(), "")
	}
	if errors.Is(parse.Err, csv.ErrQuote) {
		return t.fail(parse.StartLine+skipped, "a quotation mark is opened and not closed, or text follows a closed one",
			`write a quotation mark inside a cell as two: "a ""soft"" blue"`)
	}
	return t.fail(parse.Line+skipped, "a quotation mark stands inside a cell",
		`put the whole cell in quotation marks and write the inner one twice: "a ""soft"" blue"`)
}
