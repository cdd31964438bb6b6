package table

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/unicode"
)

// Kept is a table beside its text as it stands in the file, so that rows can be
// changed, moved, added and taken out while every other byte stays: spaces,
// quotation marks, line ends, remarks, the encoding.
type Kept struct {
	*Table

	before []byte            // what comes before the headings: marks, a "sep=" line
	wide   encoding.Encoding // of UTF-16; nil = UTF-8
	bare   bool              // lines end in a carriage return alone
	head   []byte            // remarks above the headings, and these
	cells  int               // headings, as they stand in the file
	rows   []keptRow
	tail   []byte // remarks and blank lines below the last row
}

// keptRow is one row of Data: the remarks and blank lines above it, and itself,
// with its line end.
type keptRow struct{ lead, text []byte }

// Wanted is a row as it is to be.
type Wanted struct {
	Of    int            // which row of Data it was, from 0; −1 = a new one
	Cells map[int]string // by column; what is not named stays
}

// Keep reads a table with its text. Errors are tiles.Problems of the named file.
func Keep(file string, raw []byte) (*Kept, error) {
	t, err := Read(file, bytes.NewReader(raw))
	if err != nil {
		return nil, err
	}
	k := &Kept{Table: t, cells: len(t.Columns)}
	text, err := k.plain(raw)
	if err != nil {
		return nil, err
	}
	return k, k.cut(text)
}

// plain is the text as UTF-8 with line feeds, what comes before it set aside. A
// file that would not come back the same is refused.
func (k *Kept) plain(raw []byte) ([]byte, error) {
	text := raw
	for mark, end := range map[string]unicode.Endianness{"\xff\xfe": unicode.LittleEndian, "\xfe\xff": unicode.BigEndian} {
		if !bytes.HasPrefix(raw, []byte(mark)) {
			continue
		}
		k.wide = unicode.UTF16(end, unicode.IgnoreBOM)
		plain, err := k.wide.NewDecoder().Bytes(raw)
		if again, cannot := k.wide.NewEncoder().Bytes(plain); err != nil || cannot != nil || !bytes.Equal(again, raw) {
			return nil, k.fail(0, "holds letters that cannot be written back as they are", `save it again as "CSV UTF-8"`)
		}
		text = plain
	}
	rest := bytes.TrimLeft(text, "\ufeff")
	if m := sepLine.Find(rest); m != nil {
		rest = rest[len(m):]
	}
	k.before = text[:len(text)-len(rest)]
	if !bytes.Contains(rest, []byte("\n")) {
		k.bare = bytes.Contains(rest, []byte("\r"))
		rest = bytes.ReplaceAll(rest, []byte("\r"), []byte("\n"))
	}
	return rest, nil
}

// cut cuts the text into its rows, at the reader's own offsets.
func (k *Kept) cut(text []byte) error {
	in := csv.NewReader(bytes.NewReader(text))
	in.Comma, in.FieldsPerRecord = k.comma, -1
	var begun int64 // of what is not yet in head or rows
	for {
		start := in.InputOffset()
		record, err := in.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return k.csvProblem(err, 0)
		}
		end := in.InputOffset()
		for start < end && (text[start] == '\n' || text[start] == '\r') {
			start++ // an empty line is no row, and comes with the next one
		}
		switch {
		case blank(record) || isRemark(clean.Replace(record[0])):
			continue
		case k.head == nil:
			k.head = text[:end]
		default:
			k.rows = append(k.rows, keptRow{lead: text[begun:start], text: text[start:end]})
		}
		begun = end
	}
	k.tail = text[begun:]
	if len(k.rows) != len(k.Data()) {
		return k.fail(0, "cannot be taken apart row by row", "open it in a spreadsheet and save it again")
	}
	return nil
}

// With is the file with these rows, in this order, and these headings added
// behind the ones it has. What stood above a row goes where the row goes; what
// stood above one that is taken out stays in its place.
func (k *Kept) With(added []string, rows []Wanted) ([]byte, error) {
	var out bytes.Buffer
	out.Write(k.withHeadings(added))
	leads, tail := k.leads(rows)
	for _, w := range rows {
		text, err := k.rowText(w, k.cells+len(added))
		if err != nil {
			return nil, err
		}
		if w.Of >= 0 {
			k.next(&out, leads[w.Of])
		}
		k.next(&out, text)
	}
	k.next(&out, tail)
	return k.encoded(out.Bytes())
}

// leads is what stands above each row that stays, and below the last, when the
// others are gone.
func (k *Kept) leads(rows []Wanted) (leads map[int][]byte, tail []byte) {
	leads = map[int][]byte{}
	var left []byte
	for i, r := range k.rows {
		left = append(left, r.lead...)
		if slices.ContainsFunc(rows, func(w Wanted) bool { return w.Of == i }) {
			leads[i], left = left, nil
		}
	}
	return leads, append(left, k.tail...)
}

// next writes text that begins a line.
func (k *Kept) next(out *bytes.Buffer, text []byte) {
	if len(text) == 0 {
		return
	}
	if b := out.Bytes(); len(b) > 0 && b[len(b)-1] != '\n' {
		out.WriteString(k.lineEnd())
	}
	out.Write(text)
}

func (k *Kept) lineEnd() string {
	if k.crlf {
		return "\r\n"
	}
	return "\n"
}

func (k *Kept) withHeadings(added []string) []byte {
	if len(added) == 0 {
		return k.head
	}
	row, end := cutLineEnd(k.head)
	var out bytes.Buffer
	out.Write(row)
	for _, name := range added {
		out.WriteRune(k.comma)
		out.WriteString(k.written(name))
	}
	out.Write(end)
	return out.Bytes()
}

func cutLineEnd(row []byte) (text, end []byte) {
	text = bytes.TrimSuffix(row, []byte("\n"))
	text = bytes.TrimSuffix(text, []byte("\r"))
	return text, row[len(text):]
}

// rowText is the row with its cells changed; one that says what it said is left
// as it was typed. A new one has a cell below every heading, as writeRow's have.
func (k *Kept) rowText(w Wanted, width int) ([]byte, error) {
	cells, end := make([]string, width), []byte(k.lineEnd())
	var have Row
	if w.Of >= 0 {
		var text []byte
		text, end = cutLineEnd(k.rows[w.Of].text)
		cells, have = cellTexts(text, k.comma), k.Data()[w.Of]
	}
	changed := w.Of < 0
	for column, value := range w.Cells {
		value = strings.TrimSpace(clean.Replace(value))
		if value == have.Cell(column) {
			continue
		}
		changed = true
		for len(cells) <= column {
			cells = append(cells, "")
		}
		cells[column] = k.written(value)
	}
	if !changed {
		return k.rows[w.Of].text, nil
	}
	row := strings.Join(cells, string(k.comma))
	if strings.Trim(row, string(k.comma)+" ") == "" {
		return nil, k.fail(0, "a row would be empty", "write something into it, or take it out")
	}
	return append([]byte(row), end...), nil
}

// cellTexts cuts a row into its cells as they are typed: at each separator
// outside quotation marks.
func cellTexts(row []byte, comma rune) []string {
	var cells []string
	begun, quoted := 0, false
	for i, b := range row {
		switch {
		case b == '"':
			quoted = !quoted
		case rune(b) == comma && !quoted:
			cells = append(cells, string(row[begun:i]))
			begun = i + 1
		}
	}
	return append(cells, string(row[begun:]))
}

// written is a value as a cell of the file, guarded, in quotation marks where
// it needs them (RFC 4180).
func (k *Kept) written(value string) string {
	value = Guard(value)
	if !strings.ContainsAny(value, "\",;\t\r\n") && strings.TrimSpace(value) == value {
		return value
	}
	return `"` + strings.ReplaceAll(value, `"`, `""`) + `"`
}

// encoded is the text as the file had it.
func (k *Kept) encoded(text []byte) ([]byte, error) {
	if k.bare {
		text = bytes.ReplaceAll(text, []byte("\n"), []byte("\r"))
	}
	text = slices.Concat(k.before, text)
	if k.wide == nil {
		return text, nil
	}
	out, err := k.wide.NewEncoder().Bytes(text)
	if err != nil {
		return nil, k.fail(0, "cannot hold these letters", `save it again as "CSV UTF-8"`)
	}
	return out, nil
}
