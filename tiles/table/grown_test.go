package table

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestGrownLeavesEveryByteThatWasThere puts a row with a new heading below
// tables as different programs save them.
func TestGrownLeavesEveryByteThatWasThere(t *testing.T) {
	for name, text := range map[string]string{
		"plain":        "a,b\n1,2\n",
		"no last line": "a,b\n1,\"2\"",
		"crlf, marked": "\ufeffa;b\r\n\"1\";2,5\r\n",
		"remarks":      "# ours\n\na,b\n# a week later\n1,2\n\n  3 ,4\n",
		"tabs":         "a\tb\n1\t\"x\ty\"\n",
		"sep":          "sep=;\na;b\n1;2\n",
	} {
		read, err := Read("t.csv", strings.NewReader(text))
		require.NoError(t, err, name)
		var r Row
		r.Set(0, "=1+1")
		r.Set(read.AddColumn("new"), "ا, ; \"ب")
		grown, err := read.Grown([]byte(text), []Row{r})
		require.NoError(t, err, name)
		_, below, _ := bytes.Cut([]byte(text), []byte("b"))
		_, rows, _ := bytes.Cut(below, []byte("\n"))
		assert.Contains(t, string(grown), string(rows), name)
		again, err := Read("t.csv", bytes.NewReader(grown))
		require.NoError(t, err, name)
		last := again.Rows[len(again.Rows)-1]
		assert.Equal(t, "=1+1", again.Cell(last, "a"), name)
		assert.Equal(t, "ا, ; \"ب", again.Cell(last, "new"), name)
		assert.Len(t, again.Data(), len(read.Data())+1, name)
	}
}

// TestGrownIsReadByAnotherLibrary: encoding/csv alone, which follows RFC 4180.
func TestGrownIsReadByAnotherLibrary(t *testing.T) {
	read, err := Read("t.csv", strings.NewReader("a,b\n1,2\n"))
	require.NoError(t, err)
	grown, err := read.Grown([]byte("a,b\n1,2\n"), []Row{{Cells: []string{strings.Repeat("x", 250), "two\nlines"}}})
	require.NoError(t, err)
	rows, err := csv.NewReader(bytes.NewReader(grown)).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, [][]string{{"a", "b"}, {"1", "2"}, {strings.Repeat("x", 250), "two\nlines"}}, rows)
}

// TestReplacedTouchesOneRow puts a row in the place of another, between rows as
// people and programs write them.
func TestReplacedTouchesOneRow(t *testing.T) {
	for name, text := range map[string]string{
		"plain":   "# ours\na,b\n\"1\",2\nx,y\n  3 ,\"two\nlines\"\nlast,one",
		"blank":   "a;b\r\n\r\n1;2\r\n# mine\r\nx;y\r\n\"3\";4\r\n",
		"sep=":    "sep=;\na;b\n1;2\nx;y\n3;4\n",
		"in text": "a,b\n\"one\nmore\",2\nx,y\n\"3\",4\n",
	} {
		read, err := Read("t.csv", strings.NewReader(text))
		require.NoError(t, err, name)
		var r Row
		for _, one := range read.Data() {
			if one.Cell(0) == "x" {
				r = Row{Line: one.Line, Cells: []string{"new", "z"}}
			}
		}
		require.NotZero(t, r.Line, name)
		out, err := read.Replaced([]byte(text), []Row{r})
		require.NoError(t, err, name)
		old, mark := "x,y", "new,z"
		if strings.Contains(text, "x;y") {
			old, mark = "x;y", "new;z"
		}
		assert.Equal(t, strings.Replace(text, old, mark, 1), string(out), name)
	}
}
