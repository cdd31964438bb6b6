package table

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"
)

func read(t *testing.T, text string) *Table {
	t.Helper()
	tab, err := Read("x.csv", strings.NewReader(text))
	require.NoError(t, err)
	return tab
}

func written(t *testing.T, tab *Table) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, tab.Write(&b))
	return b.String()
}

// RFC 4180, section 2: quotes, doubled quotes, commas and line ends in a cell.
func TestReadsTheExamplesOfRFC4180(t *testing.T) {
	tab := read(t, "aaa,bbb,ccc\r\n\"b CRLF\r\nbb\",\"b\"\"bb\",\"c,c\"\r\nzzz,yyy,xxx\r\n")
	assert.Equal(t, []string{"aaa", "bbb", "ccc"}, tab.Columns)
	assert.Equal(t, []string{"b CRLF\nbb", `b"bb`, "c,c"}, tab.Rows[0].Cells)
	assert.Equal(t, 4, tab.Rows[1].Line)
	assert.Equal(t, "aaa,bbb,ccc\r\n\"b CRLF\r\nbb\",\"b\"\"bb\",\"c,c\"\r\nzzz,yyy,xxx\r\n", written(t, tab))
}

func TestReadsWhatSpreadsheetsSave(t *testing.T) {
	utf16, err := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder().String("code;name\r\nA;Grüne Bucht\r\n")
	require.NoError(t, err)
	for name, text := range map[string]string{
		"plain":          "code,name\nA,Grüne Bucht\n",
		"mark":           "\ufeffcode,name\r\nA,Grüne Bucht\r\n",
		"semicolons":     "\ufeffCode;Name\r\nA;Grüne Bucht\r\n;;\r\n",
		"tabs":           "code\tname\nA\tGrüne Bucht\n",
		"sep line":       "sep=;\r\ncode;name\r\nA;Grüne Bucht\r\n",
		"UTF-16":         utf16,
		"old Mac":        "code,name\rA,Grüne Bucht\r",
		"remark above":   "# our glazes, all of them\n\ncode,name\nA,Grüne Bucht\n",
		"empty columns":  "code,name,,\nA,Grüne Bucht,,\n",
		"no end of line": "code,name\nA,Grüne Bucht",
	} {
		tab := read(t, text)
		require.Len(t, tab.Data(), 1, name)
		assert.Equal(t, "A", tab.Cell(tab.Data()[0], "code"), name)
		assert.Equal(t, "Grüne Bucht", tab.Cell(tab.Data()[0], "name"), name)
	}
}

func TestKeepsRemarksBlankRowsMarksAndOrder(t *testing.T) {
	for _, text := range []string{
		"# above\ncode,name\nB,two\n# between\n,\nA,one\n",
		"\ufeffcode;name\r\nB;\"two; and more\"\r\nA;one\r\n",
	} {
		assert.Equal(t, text, written(t, read(t, text)))
	}
	assert.Equal(t, "code,name\nB,two\n,\nA,one\n", written(t, read(t, "code,name\nB,two\n\n\nA,one\n")))
}

func TestProblemsNameTheLine(t *testing.T) {
	for text, want := range map[string]string{
		"":                                  "x.csv: the file is empty; the first row must hold the headings",
		"code,name\nA,5\" tile\n":           "x.csv:2: a quotation mark stands inside a cell; put the whole cell",
		"code,name\nA,\"open\nB,b\n":        "x.csv:2: a quotation mark is opened and not closed",
		"code,name\nA,brown, dark\n":        "x.csv:2: has 3 cells below 2 headings; put quotation marks round a cell that holds a comma",
		"code,name\nA,a\nB,\xe9mail\n":      "x.csv:3: holds letters that are not UTF-8; save it again as \"CSV UTF-8\"",
		"PK\x03\x04\x00\x00":                "x.csv: is a spreadsheet's own file and no CSV; open it in the spreadsheet and save it as \"CSV UTF-8\"",
		"code,name,Name\n":                  "x.csv:1: two columns are called Name; rename one of them",
		strings.Repeat("a,", MaxColumns+50): "x.csv:1: the table is larger than",
	} {
		_, err := Read("x.csv", strings.NewReader(text))
		require.Error(t, err, "%q", text)
		assert.Contains(t, err.Error(), want, "%q", text)
	}
}

func TestAnOversizedFileIsRefused(t *testing.T) {
	_, err := Read("x.csv", strings.NewReader(strings.Repeat("a,b\n", MaxBytes/4+1)))
	assert.ErrorContains(t, err, "x.csv: is larger than 16 MB")
	_, err = Read("x.csv", strings.NewReader(strings.Repeat("a\n", MaxRows+2)))
	assert.ErrorContains(t, err, "the table is larger than 200000 rows")
}

func TestDecimalCommaComesBack(t *testing.T) {
	tab := read(t, "tile;l\n1;48,25\n")
	x, err := Number(tab.Cell(tab.Data()[0], "l"))
	require.NoError(t, err)
	assert.Equal(t, 48.25, x)
	assert.Equal(t, "50,5", tab.Format(50.5, 2))
	assert.Equal(t, "0", New("x.csv").Format(-0.001, 2))
	for _, bad := range []string{"NaN", "Inf", "1e9", "0x10", "", "1,2,3", "=1"} {
		_, err := Number(bad)
		assert.Error(t, err, bad)
	}
}

func TestAnyTableComesBackAsItWas(t *testing.T) {
	cell := rapid.StringOf(rapid.RuneFrom([]rune("ab '=+-@,;\t\"#\n＝0.1é")))
	rapid.Check(t, func(t *rapid.T) {
		tab := New("x.csv", "one", "two", "three")
		tab.comma = rapid.SampledFrom([]rune{0, ';', '\t'}).Draw(t, "comma")
		want := rapid.SliceOf(rapid.SliceOfN(cell, 3, 3)).Draw(t, "rows")
		for i, cells := range want {
			want[i][0] = "x" + cells[0] // a row that begins blank or with "# " is no data
			tab.Rows = append(tab.Rows, Row{Cells: cells})
		}
		var b bytes.Buffer
		require.NoError(t, tab.Write(&b))
		back, err := Read("x.csv", &b)
		require.NoError(t, err)
		require.Len(t, back.Data(), len(want))
		for i, r := range back.Data() {
			assert.Equal(t, want[i], r.Cells)
		}
	})
}
