package content

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"
)

// change is one cell of a row of the file.
func change(t *testing.T, file, text string, row int, column, to string) string {
	t.Helper()
	l, err := ParseList(file, []byte(text))
	require.NoError(t, err)
	l.Rows[row].Cells[column] = to
	after, err := EditedList(file, []byte(text), l.Rows)
	require.NoError(t, err)
	return string(after)
}

// TestEditedListChangesOneCell: what stands around it stays to the letter.
func TestEditedListChangesOneCell(t *testing.T) {
	for _, c := range []struct{ file, text, column, to, want string }{
		{GlazesCSV, "name;code;mine\r\n# our whites\r\n\"Quarry; Milk\"; QM ;\" x \"\r\n\r\nB;QX;\"y\"", "code", "Q1",
			"name;code;mine\r\n# our whites\r\n\"Quarry; Milk\";Q1;\" x \"\r\n\r\nB;QX;\"y\""},
		{GlazesCSV, "code,name\nA,Ash\nB,Bone", "sg", "1.45", "code,name,sg\nA,Ash,1.45\nB,Bone"},
		{GlazesCSV, "sep=;\ncode;name\nA;Ash\n", "name", "Ash; old", "sep=;\ncode;name\nA;\"Ash; old\"\n"},
		{GlazesCSV, "code,name,colour\nA,Ash,\n", "name", "=1+1", "code,name,colour\nA,'=1+1,\n"},
		{GlazesCSV, "code,name\rA,Ash\rB,Bone\r", "name", "Ash Two", "code,name\rA,Ash Two\rB,Bone\r"},
		{GlazesCSV, "code,name,notes\nA,Ash,\"two\nlines\"\n", "name", "As", "code,name,notes\nA,As,\"two\nlines\"\n"},
		{GlazesYAML, "# ours\n- code: A   # the first\n  name: 'Ash'\n  mine: {x: 1}\n\n# two\n- code: B\n  name: Bone", "name", "No: 5",
			"# ours\n- code: A   # the first\n  name: \"No: 5\"\n  mine: {x: 1}\n\n# two\n- code: B\n  name: Bone"},
		{GlazesYAML, "glazes:\n  - name: Ash     # light\n    code: A\n", "traits", "runny; crawls",
			"glazes:\n  - name: Ash     # light\n    code: A\n    traits: [runny, crawls]\n"},
		{GlazesYAML, "- {code: A, name: Ash}\n", "cone", "06", "- {code: A, name: Ash, cone: \"06\"}\n"},
		{GlazesYAML, "- code: A\n  name: >\n    Ash\n    and bone\n\n  cone:\n", "name", "Ash", "- code: A\n  name: Ash\n\n  cone:\n"},
		{GlazesYAML, "- code: A\n  name: Ash\n  traits:\n  - runny\n  - crawls\n", "traits", "slick", "- code: A\n  name: Ash\n  traits: [slick]\n"},
	} {
		require.Equal(t, c.want, change(t, c.file, c.text, 0, c.column, c.to))
	}
}

// TestEditedListKeepsUTF16, as some spreadsheets save text.
func TestEditedListKeepsUTF16(t *testing.T) {
	in := unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	was, err := in.NewEncoder().String("code\tname\r\nA\tÄsche\r\n")
	require.NoError(t, err)
	is, err := in.NewDecoder().String(change(t, GlazesCSV, was, 0, "code", "Ä"))
	require.NoError(t, err)
	require.Equal(t, "code\tname\r\nÄ\tÄsche\r\n", is)
}

// TestEditedListMovesRowsWithWhatStandsAbove, and leaves in its place what
// stood above a row that is taken out.
func TestEditedListMovesRowsWithWhatStandsAbove(t *testing.T) {
	for file, c := range map[string][2]string{
		GlazesCSV: {"code,name\n# a\nA,Ash\nB,Bone\n# c\nC,Clay\n# end\n",
			"code,name\n# c\nC,Clay\nN,New\n# a\nA,Ash\n# end\n"},
		GlazesYAML: {"# list\n- code: A\n  name: Ash\n- {code: B, name: Bone}\n# c\n- code: C\n  name: Clay\n# end\n",
			"# list\n# c\n- code: C\n  name: Clay\n- code: N\n  name: New\n- code: A\n  name: Ash\n# end\n"},
	} {
		l, err := ParseList(file, []byte(c[0]))
		require.NoError(t, err)
		rows := []ListRow{l.Rows[2], {Of: -1, Cells: map[string]string{"code": "N", "name": "New"}}, {Of: -1, Cells: map[string]string{"code": " "}}, l.Rows[0]}
		after, err := EditedList(file, []byte(c[0]), rows)
		require.NoError(t, err)
		require.Equal(t, c[1], string(after))
	}
}

// TestEditedListKeepsEveryOtherRow, over lists as people and spreadsheets type
// them and any edit: rows that were not touched are in the file byte for byte,
// and what was typed, hostile or not, is read again as it was typed.
func TestEditedListKeepsEveryOtherRow(t *testing.T) {
	typed := rapid.OneOf(rapid.StringMatching(`[A-Za-zé ,;"'#=+@<>&:{}\[\]|-]{0,12}`),
		rapid.SampledFrom([]string{"=cmd|' /C calc'!A0", "# x", "-", "- a", "'", "\"", "a: b", "~", "null", "yes", "06", "1e3", "<script>", "é\u0301", "{{x}}", "*a", "&a", "!x", "%", "a\tb"}))
	rapid.Check(t, func(t *rapid.T) {
		file := rapid.SampledFrom([]string{GlazesCSV, GlazesYAML}).Draw(t, "file")
		text, lines := handTyped(t, file)
		l, err := ParseList(file, []byte(text))
		require.NoError(t, err, text)
		require.Len(t, l.Rows, len(lines))
		order := rapid.Permutation(l.Rows).Draw(t, "order")
		rows := order[:rapid.IntRange(0, len(order)).Draw(t, "kept")]
		touched := map[int]bool{}
		for i := range rows {
			if !rapid.Bool().Draw(t, "touch") {
				continue
			}
			name := rapid.SampledFrom([]string{"name", "notes", "mine"}).Draw(t, "column")
			to := "x" + typed.Draw(t, "to")
			touched[rows[i].Of] = touched[rows[i].Of] || rows[i].Cells[name] != tidy(to)
			rows[i].Cells[name] = to
		}
		if rapid.Bool().Draw(t, "new") {
			rows = slices.Insert(rows, rapid.IntRange(0, len(rows)).Draw(t, "at"), ListRow{Of: -1, Cells: map[string]string{"code": "ZZ", "name": "z" + typed.Draw(t, "name")}})
		}
		after, err := EditedList(file, []byte(text), rows)
		require.NoError(t, err, text)
		for _, r := range rows {
			if r.Of >= 0 && !touched[r.Of] {
				require.Contains(t, string(after), lines[r.Of], text)
			}
		}
		is, err := ParseList(file, after)
		require.NoError(t, err)
		require.Len(t, is.Rows, len(rows))
		for i, r := range rows {
			for name, v := range r.Cells {
				require.Equal(t, tidy(v), is.Rows[i].Cell(name), string(after))
			}
		}
		same, err := EditedList(file, after, is.Rows)
		require.NoError(t, err)
		require.True(t, bytes.Equal(after, same))
	})
}

// handTyped is a list as somebody may have typed it, and each glaze's own lines
// in it without the line end.
func handTyped(t *rapid.T, file string) (text string, rows []string) {
	end := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "line end")
	count := rapid.IntRange(1, 5).Draw(t, "glazes")
	var out strings.Builder
	if file == GlazesCSV {
		out.WriteString(rapid.SampledFrom([]string{"", "\ufeff", "\ufeff# list" + end, end}).Draw(t, "before"))
		comma := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "comma")
		out.WriteString(strings.Join([]string{"Code", "name", "mine", "notes"}, comma) + end)
		for i := range count {
			out.WriteString(rapid.SampledFrom([]string{"", "# remark" + end, end, "# a" + end + end + "# b" + end}).Draw(t, "lead"))
			row := strings.Join([]string{fmt.Sprintf("C%d", i),
				rapid.SampledFrom([]string{"Ash", " Ash ", "\"Ash\"", "\"A \"\"soft\"\" ash\"", "\"two" + end + "lines\"", "'=x"}).Draw(t, "name"),
				rapid.SampledFrom([]string{"", "x", "\" y \"", "'# z"}).Draw(t, "mine")}, comma)
			rows = append(rows, row)
			out.WriteString(row)
			if i < count-1 || rapid.Bool().Draw(t, "last line end") {
				out.WriteString(end)
			}
		}
		return out.String(), rows
	}
	out.WriteString(rapid.SampledFrom([]string{"", "# list" + end, "glazes:" + end}).Draw(t, "before"))
	indent := rapid.SampledFrom([]string{"", "  "}).Draw(t, "indent")
	for i := range count {
		out.WriteString(rapid.SampledFrom([]string{"", indent + "# remark" + end, end}).Draw(t, "lead"))
		name := rapid.SampledFrom([]string{"Ash", "'Ash''s'", "\"A \\\"soft\\\" ash\"", "Ash   # light"}).Draw(t, "name")
		row := fmt.Sprintf("%s- code: C%d%s%s  name: %s", indent, i, end, indent, name)
		if !strings.Contains(name, "#") && rapid.Bool().Draw(t, "one line") {
			row = fmt.Sprintf("%s- {code: C%d, name: %s}", indent, i, name)
		} else if rapid.Bool().Draw(t, "more") {
			row += end + indent + "  notes: |" + end + indent + "    two" + end + indent + "    lines"
		}
		rows = append(rows, row)
		out.WriteString(row)
		if i < count-1 || rapid.Bool().Draw(t, "last line end") {
			out.WriteString(end)
		}
	}
	return out.String(), rows
}

// TestCheckListSaysWhere: each problem beside its cell.
func TestCheckListSaysWhere(t *testing.T) {
	rows := []ListRow{
		{Of: -1, Cells: map[string]string{"code": "QM", "name": "Quarry Milk", "sg": "3"}},
		{Of: -1, Cells: map[string]string{}},
		{Of: -1, Cells: map[string]string{"Code": "qm", "name": "", "traits": "sparkly; runny"}},
		{Of: -1, Cells: map[string]string{"code": "LONGER", "name": "x", "shade": "grey"}},
	}
	var got []string
	for _, b := range CheckList(GlazesCSV, rows) {
		got = append(got, fmt.Sprintf("%d %s: %s", b.Row, b.Column, b.What))
	}
	require.Equal(t, []string{
		`0 sg: the specific gravity is "3"`,
		`2 code: the code qm is also in row 1 (Quarry Milk)`,
		`2 name: the glaze qm has no name`,
		`2 traits: there is no trait "sparkly"`,
		`3 code: the code "LONGER" is not 1 to 4 letters or digits`,
		`3 shade: the shade is "grey"`,
	}, got)
}
