package table

import (
	"bytes"
	"reflect"
	"testing"
)

// What can be read can be written, and reads the same again: no cell is lost
// or changed by a file going through the program.
func FuzzReadWriteRead(f *testing.F) {
	for _, seed := range []string{
		"a,b\n1,2\n", "\ufeffa;b\r\n\"1;\r\n2\";'=x\r\n", "a\tb\n\"\"\"\"\t\n", "# r\na,b\n\n,\n# s\n1,2", "sep=;\na;b\n1;2\n", "a,b\n'=1,''=1\n", "\xff\xfea\x00\n\x00", "a,b\n1,\"x", "a\n\"\n\"\n", "a,a\n", "a\r1\r",
		"\"#\"\na\n", "a\n\"\"\n", "a,b\n\"# x\",\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		one, err := Read("x.csv", bytes.NewReader(raw))
		if err != nil {
			return
		}
		var b bytes.Buffer
		if err := one.Write(&b); err != nil {
			t.Fatal(err)
		}
		two, err := Read("x.csv", bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatalf("wrote what cannot be read: %v\n%q", err, b.String())
		}
		if !reflect.DeepEqual(cells(one), cells(two)) {
			t.Fatalf("%q\nbecame %q", cells(one), cells(two))
		}
	})
}

// cells is what the table says: headings and data without the spaces around.
func cells(t *Table) [][]string {
	all := [][]string{}
	for _, r := range append([]Row{{Cells: t.Columns}}, t.Data()...) {
		line := []string{}
		for i := range t.Columns {
			line = append(line, r.Cell(i))
		}
		all = append(all, line)
	}
	return all
}
