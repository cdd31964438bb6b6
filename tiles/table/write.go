package table

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Write writes the table as UTF-8, with the separator, line ends and
// byte-order mark it was read with. Every cell is guarded.
func (t *Table) Write(w io.Writer) error {
	if t.mark {
		if _, err := io.WriteString(w, "\ufeff"); err != nil {
			return err
		}
	}
	if err := t.saySeparator(w); err != nil {
		return err
	}
	out := t.writer(w)
	for _, r := range t.before {
		if err := writeRow(out, r, 1); err != nil {
			return err
		}
	}
	if err := writeRow(out, Row{Cells: t.Columns}, 1); err != nil {
		return err
	}
	for _, r := range t.Rows {
		if err := writeRow(out, r, len(t.Columns)); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func (t *Table) writer(w io.Writer) *csv.Writer {
	out := csv.NewWriter(w)
	out.UseCRLF = t.crlf
	if t.comma != 0 {
		out.Comma = t.comma
	}
	return out
}

// saySeparator writes a "sep=" line where the headings would be misread
// without it: one heading that holds a semicolon, say.
func (t *Table) saySeparator(w io.Writer) error {
	var headings bytes.Buffer
	out := t.writer(&headings)
	if err := writeRow(out, Row{Cells: t.Columns}, 1); err != nil {
		return err
	}
	out.Flush()
	// Headings that say nothing are passed over when the separator is looked for.
	if said := skipRemarks(headings.Bytes()); len(said) > 0 && likeliest(said) == out.Comma && !sepLine.Match(headings.Bytes()) {
		return nil
	}
	_, err := fmt.Fprintf(w, "sep=%c\n", out.Comma)
	return err
}

// writeRow writes a row of at least the width, so that a spreadsheet sees a
// full rectangle. A remark that stands alone stays alone.
func writeRow(out *csv.Writer, r Row, width int) error {
	if r.Remark && len(r.Cells) == 1 && isRemark(r.Cells[0]) {
		width = 1
	}
	row := make([]string, max(len(r.Cells), width))
	for i, c := range r.Cells {
		if r.Remark {
			row[i] = guardFormula(clean.Replace(c))
		} else {
			row[i] = Guard(clean.Replace(c))
		}
	}
	return out.Write(row)
}

// A carriage return inside a quoted cell does not survive reading (RFC 4180
// readers fold it into the line end), NUL makes the file unreadable, and a
// byte-order mark says nothing.
var clean = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "", "\ufeff", "")

// Number reads a decimal number with a point or, as many spreadsheets write
// it, a comma. It refuses NaN, infinities and exponents nobody types.
func Number(cell string) (float64, error) {
	cell = strings.TrimSpace(strings.ReplaceAll(cell, "−", "-"))
	if !number.MatchString(cell) {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(strings.Replace(cell, ",", ".", 1), 64)
}

// Format writes a number with at most so many decimals, none of them trailing
// zeros, and with the decimal mark that the table's owner uses.
func (t *Table) Format(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		s = "0"
	}
	if t.decimalComma {
		s = strings.Replace(s, ".", ",", 1)
	}
	return s
}
