package book

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/table"
)

// TestReadsWhatASpreadsheetShows holds files written by other makers' libraries
// (testdata/make.py: openpyxl and odfpy) against what a spreadsheet shows of them.
func TestReadsWhatASpreadsheetShows(t *testing.T) {
	for _, name := range []string{"glazes.xlsx", "glazes.ods"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		require.NoError(t, err)
		got, err := CSV(name, data)
		require.NoError(t, err, name)
		lines := strings.Split(strings.TrimSpace(string(got)), "\n")
		require.Len(t, lines, 5, name)
		assert.Equal(t, "code,name,cone,sg,mixed", lines[0], name)
		assert.Equal(t, "QM,Quarry Milk,06,1.45,2026-11-12", lines[1], name)
		assert.Contains(t, lines[4], `=cmd,"a ""soft"" blue over two lines"`, name)

		read, err := table.Read(name, bytes.NewReader(got))
		require.NoError(t, err)
		require.Len(t, read.Data(), 3)
		assert.Equal(t, 4, read.Data()[1].Line, "%s: a line is the row of that number", name)
		assert.Equal(t, "Lamp Rust, dark", read.Cell(read.Data()[1], "name"), name)
	}
}

// TestRefusesWhatIsNoSpreadsheet: in a sentence, and without taking memory.
func TestRefusesWhatIsNoSpreadsheet(t *testing.T) {
	for name, data := range map[string][]byte{
		"empty.xlsx": nil, "empty.ods": nil,
		"text.xlsx": []byte("code,name\nQM,Quarry Milk\n"), "text.ods": []byte("code,name\n"),
		"other.ods": packed(t, "mimetype", "x"), "other.xlsx": packed(t, "mimetype", "x"),
		"cut.ods": packed(t, "content.xml", "<a><table:table><table:table-row>"),
	} {
		_, err := CSV(name, data)
		require.EqualError(t, err, name+`: cannot be read as a spreadsheet; open it in the spreadsheet and save it again, or save it as "CSV UTF-8"`)
	}
}

// TestRefusesBombs: a few kilobytes that stand for gigabytes of rows or cells.
func TestRefusesBombs(t *testing.T) {
	row := `<table:table-row table:number-rows-repeated="16000000"><table:table-cell table:number-columns-repeated="150"><text:p>x</text:p></table:table-cell></table:table-row>`
	wide := `<table:table-row><table:table-cell table:number-columns-repeated="16000000"><text:p>x</text:p></table:table-cell></table:table-row>`
	long := `<table:table-row><table:table-cell><text:p>` + strings.Repeat("x", mostUnpacked) + `</text:p></table:table-cell></table:table-row>`
	for name, rows := range map[string]string{"rows.ods": row, "wide.ods": wide, "long.ods": long} {
		_, err := CSV(name, packed(t, "content.xml", `<d><table:table>`+rows+`</table:table></d>`))
		require.EqualError(t, err, name+": holds more than a glaze list or a log can; check that it is the file you mean")
	}
}

func packed(t *testing.T, name, text string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	w, err := z.Create(name)
	require.NoError(t, err)
	_, err = w.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return out.Bytes()
}

func FuzzBook(f *testing.F) {
	for _, name := range []string{"glazes.xlsx", "glazes.ods"} {
		data, err := os.ReadFile(filepath.Join("testdata", name))
		require.NoError(f, err)
		f.Add(data, strings.HasSuffix(name, "ods"))
	}
	f.Fuzz(func(t *testing.T, data []byte, ods bool) {
		name := "a.xlsx"
		if ods {
			name = "a.ods"
		}
		if text, err := CSV(name, data); err == nil {
			_, _ = table.Read(name, bytes.NewReader(text))
		}
	})
}
