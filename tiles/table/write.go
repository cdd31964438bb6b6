package table

import (
	"encoding/csv"
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
	out := csv.NewWriter(w)
	out.UseCRLF = t.crlf
	if t.comma != 0 {
		out.Comma = t.comma
	}
	for _, r := range t.before {
		if err := writeRow(out, r.Cells, 1); err != nil {
			return err
		}
	}
	if err := writeRow(out, t.Columns, 1); err != nil {
		return err
	}
	for _, r := range t.Rows {
		if err := writeRow(out, r.Cells, len(t.Columns)); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// writeRow writes a row of at least the width, so that a spreadsheet sees a
// full rectangle. A remark that stands alone stays alone.
func writeRow(out *csv.Writer, cells []string, width int) error {
	if len(cells) == 1 && isRemark(cells[0]) {
		width = 1
	}
	row := make([]string, max(len(cells), width))
	for i, c := range cells {
		row[i] = Guard(clean.Replace(c))
	}
	return out.Write(row)
}

// A carriage return inside a quoted cell does not survive reading (RFC 4180
// readers fold it into the line end), and NUL makes the file unreadable.
var clean = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "")

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
