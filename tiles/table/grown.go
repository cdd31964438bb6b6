package table

import (
	"bytes"
	"encoding/csv"
	"slices"
	"unicode/utf8"
)

// Grown is the text of the table with more rows below: text is what it was read
// from, and every row of it stays byte for byte. Headings that t has got since it
// was read are put behind the others; rows may be shorter than their headings.
func (t *Table) Grown(text []byte, more []Row) ([]byte, error) {
	if !t.plain(text) {
		return t.anew(more)
	}
	begin, end, headings := t.headingLine(text)
	if end < 0 {
		return t.anew(more)
	}
	var out bytes.Buffer
	if !slices.Equal(oneLine(headings), t.Columns) {
		out.Write(text[:begin])
		if err := t.addTo(&out, Row{Cells: t.Columns}); err != nil {
			return nil, err
		}
		out.Write(text[end:])
	} else {
		out.Write(text)
	}
	if grown := out.Bytes(); len(grown) > 0 && grown[len(grown)-1] != '\n' {
		out.WriteString(map[bool]string{true: "\r\n", false: "\n"}[t.crlf])
	}
	for _, r := range more {
		if err := t.addTo(&out, r); err != nil {
			return nil, err
		}
	}
	return out.Bytes(), nil
}

// plain says that rows can be put below the text as it is: UTF-8, with line
// ends that csv knows.
func (t *Table) plain(text []byte) bool {
	return utf8.Valid(text) && !bytes.ContainsRune(text, 0) && bytes.ContainsRune(text, '\n')
}

// anew writes the whole table with the rows.
func (t *Table) anew(more []Row) ([]byte, error) {
	all := *t
	all.Rows = slices.Concat(t.Rows, more)
	var out bytes.Buffer
	err := all.Write(&out)
	return out.Bytes(), err
}

func (t *Table) addTo(out *bytes.Buffer, r Row) error {
	w := t.writer(out)
	if err := writeRow(w, r, len(t.Columns)); err != nil {
		return err
	}
	w.Flush()
	return w.Error()
}

// headingLine is where the line of the headings begins and ends; -1 = it cannot
// be told.
func (t *Table) headingLine(text []byte) (begin, end int, headings []string) {
	skipped := len(text) - len(bytes.TrimLeft(text, "\ufeff"))
	if m := sepLine.Find(text[skipped:]); m != nil {
		skipped += len(m)
	}
	in := csv.NewReader(bytes.NewReader(text[skipped:]))
	in.FieldsPerRecord = -1
	if in.Comma = t.comma; t.comma == 0 {
		in.Comma = ','
	}
	for {
		begin = skipped + int(in.InputOffset())
		record, err := in.Read()
		if err != nil {
			return -1, -1, nil
		}
		if !blank(record) && !isRemark(record[0]) {
			return begin, skipped + int(in.InputOffset()), record
		}
	}
}
