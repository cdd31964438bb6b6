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
	_, end, headings := t.headingLine(text)
	if end < 0 {
		return t.anew(more)
	}
	out, err := t.head(text, headings)
	if err != nil {
		return nil, err
	}
	out.Write(text[end:])
	if grown := out.Bytes(); len(grown) > 0 && grown[len(grown)-1] != '\n' {
		out.WriteString(map[bool]string{true: "\r\n", false: "\n"}[t.crlf])
	}
	for _, r := range more {
		if err := t.addTo(out, r); err != nil {
			return nil, err
		}
	}
	return out.Bytes(), nil
}

// head is the text down to the headings, with those that t has got since.
func (t *Table) head(text []byte, headings []string) (*bytes.Buffer, error) {
	begin, end, _ := t.headingLine(text)
	if slices.Equal(oneLine(headings), t.Columns) {
		return bytes.NewBuffer(slices.Clone(text[:end])), nil
	}
	out := bytes.NewBuffer(slices.Clone(text[:begin]))
	return out, t.addTo(out, Row{Cells: t.Columns})
}

func (t *Table) separatorMark() rune {
	if t.comma == 0 {
		return ','
	}
	return t.comma
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
	in.FieldsPerRecord, in.Comma = -1, t.separatorMark()
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

// Replaced is the text of the table with rows in the place of those that it has
// at the same lines; text is what t was read from, and every other row stays
// byte for byte. Headings are added as in Grown.
func (t *Table) Replaced(text []byte, rows []Row) ([]byte, error) {
	byLine := map[int]Row{}
	for _, r := range rows {
		byLine[r.Line] = r
	}
	if !t.plain(text) {
		return t.anewWith(byLine)
	}
	_, end, headings := t.headingLine(text)
	if end < 0 {
		return t.anewWith(byLine)
	}
	out, err := t.head(text, headings)
	if err != nil {
		return nil, err
	}
	in := csv.NewReader(bytes.NewReader(text[end:]))
	in.FieldsPerRecord, in.Comma = -1, t.separatorMark()
	above := bytes.Count(text[:end], []byte("\n"))
	for from := int64(0); ; from = in.InputOffset() {
		record, err := in.Read()
		if err != nil {
			out.Write(text[end+int(from):])
			return out.Bytes(), nil // what it was read from was read to its end before
		}
		line, _ := in.FieldPos(0)
		r, ours := byLine[line+above]
		if !ours || len(record) == 0 {
			out.Write(text[end+int(from) : end+int(in.InputOffset())])
			continue
		}
		if err := t.addTo(out, r); err != nil {
			return nil, err
		}
	}
}

func (t *Table) anewWith(byLine map[int]Row) ([]byte, error) {
	all := *t
	all.Rows = slices.Clone(t.Rows)
	for i, r := range all.Rows {
		if now, ok := byLine[r.Line]; ok && !r.Remark {
			all.Rows[i] = now
		}
	}
	return all.anew(nil)
}
