//go:build linux

package main

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"
)

var tableWeapons = []weapon{
	ofTable("content/glazes.csv", []string{"check"}, []string{"plan"}, []string{"print", "labels"}, []string{"build"}),
	ofTable("tiles/plan.csv", []string{"check"}, []string{"plan"}, []string{"print", "labels", "grid"}, []string{"build"}),
	ofTable("tiles/measured.csv", []string{"check"}, []string{"measure"}, []string{"build"}, []string{"find", "#804020"}, []string{"foresee"}),
	ofTable("tiles/by-hand.csv", []string{"check"}, []string{"measure"}, []string{"build"}),
	ofTable("tiles/log.csv", []string{"check"}, []string{"log"}, []string{"trace"}, []string{"build", "--for", "teacher"}),
	ofTable("tiles/batches.csv", []string{"check"}, []string{"drift"}, []string{"trace"}, []string{"print"}),
	ofTable("tiles/loads.csv", []string{"check"}, []string{"drift"}, []string{"trace"}, []string{"build", "--for", "teacher"}),
	ofTable("content/buckets.csv", []string{"check"}, []string{"build"}),
	ofTable("themes/words.csv", []string{"check"}, []string{"build"}),
	{"rows for the log", incomingRows},
	{"glaze list in a spreadsheet's own form", bookList},
	{"log rows in a spreadsheet's own form", bookRows},
}

// ofTable spoils one table of the wall.
func ofTable(name string, commands ...[]string) weapon {
	return weapon{name, func(r *rand.Rand, w ready) attack {
		return attack{files: map[string]string{name: spoiledTable(r, w.tableOf(name))}, commands: commands}
	}}
}

func (w ready) tableOf(name string) string {
	if text := w.texts[name]; text != "" {
		return text
	}
	return "word,kind,means\nrust,color,#804020\nsea,color,#206080\n"
}

// spoiledTable is the table with cells, rows or columns spoiled, or its text.
func spoiledTable(r *rand.Rand, text string) string {
	in := csv.NewReader(strings.NewReader(text))
	in.FieldsPerRecord = -1
	rows, err := in.ReadAll()
	if err != nil || len(rows) < 2 || r.IntN(3) == 0 {
		return mangled(r, text)
	}
	for range 1 + r.IntN(3) {
		rows = spoilRows(r, rows)
	}
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	out.Comma = pick(r, ',', ',', ';', '\t', '|')
	out.UseCRLF = r.IntN(3) == 0
	_ = out.WriteAll(rows)
	if r.IntN(4) == 0 {
		return mangled(r, b.String())
	}
	return b.String()
}

func spoilRows(r *rand.Rand, rows [][]string) [][]string {
	at := 1 + r.IntN(max(1, len(rows)-1))
	if at >= len(rows) || len(rows[at]) == 0 {
		return rows
	}
	cell := r.IntN(len(rows[at]))
	switch r.IntN(9) {
	case 0: // a row many times
		return slices.Concat(rows, slices.Repeat(rows[at:at+1], pick(r, 2, 400, 20_000)))
	case 1: // a column of one word
		for i := 1; i < len(rows); i++ {
			if cell < len(rows[i]) {
				rows[i][cell] = pick(r, "#REF!", "", "0", "1e999", "=1+1")
			}
		}
	case 2: // a heading that is another's, none, or hostile
		if cell < len(rows[0]) {
			rows[0][cell] = pick(r, rows[0][0], "", hostileWord(r))
		}
	case 3:
		rows[at] = rows[at][:cell]
	case 4:
		rows[at] = slices.Concat(rows[at], slices.Repeat([]string{hostileWord(r)}, pick(r, 1, 199, 5_000)))
	case 5:
		slices.Reverse(rows[1:])
	case 6:
		return slices.Concat(rows[:at], rows[at+1:])
	default:
		rows[at] = slices.Clone(rows[at])
		rows[at][cell] = hostileWord(r)
	}
	return rows
}

// incomingRows are rows from elsewhere, or what is given for such.
func incomingRows(r *rand.Rand, w ready) attack {
	name := "rows/" + pick(r, "rows.csv", "=rows <b>.csv", "rows", "-rows.csv", "rows.xlsx", "rows.ods", "rows.numbers")
	text := spoiledTable(r, pick(r, "Timestamp,Student,Under,Over,Comment\n3/4/2026 10:11,Mo,QM,FG,none\n", w.texts["tiles/log.csv"]))
	return attack{files: map[string]string{name: text},
		commands: [][]string{{"log", name}, {"log", "./" + name, "./" + name}, {"trace"}, {"log", "rows"}, {"log", "/dev/null"}}}
}

func bookList(r *rand.Rand, w ready) attack {
	name, data := hostileBook(r, w.texts["content/glazes.csv"])
	return attack{files: map[string]string{"content/glazes" + name: data, "content/glazes.csv": ""}, place: removed("content/glazes.csv"),
		commands: [][]string{{"check"}, {"plan"}, {"build"}}}
}

func bookRows(r *rand.Rand, w ready) attack {
	name, data := hostileBook(r, w.texts["tiles/log.csv"])
	return attack{files: map[string]string{"rows" + name: data}, commands: [][]string{{"log", "rows" + name}, {"trace"}}}
}

// hostileBook is a spreadsheet's own file that is more or less than one.
func hostileBook(r *rand.Rand, text string) (ending, data string) {
	ending = pick(r, ".xlsx", ".ods")
	book := xlsxOf(r, text)
	if ending == ".ods" {
		book = odsOf(r, text)
	}
	switch r.IntN(6) {
	case 0:
		book = cutShort(r, book)
	case 1:
		book = turned(r, book)
	case 2:
		book = extreme(r, book)
	case 3:
		return pick(r, ".xlsx", ".ods"), string(book)
	}
	return ending, string(book)
}

// xlsxOf is Office Open XML whose parts may be bombs or lead elsewhere.
func xlsxOf(r *rand.Rand, text string) []byte {
	f := excelize.NewFile()
	defer f.Close()
	rows, _ := csv.NewReader(strings.NewReader(text)).ReadAll()
	for i, row := range rows {
		for j, cell := range row {
			at, _ := excelize.CoordinatesToCellName(j+1, i+1)
			_ = f.SetCellValue("Sheet1", at, cell)
		}
	}
	switch r.IntN(4) {
	case 0:
		_ = f.SetCellValue("Sheet1", pick(r, "XFD1", "A1048576", "XFD1048576"), "far")
	case 1:
		_ = f.SetCellFormula("Sheet1", "B2", pick(r, "B2", "REPT(\"x\",1000000000)", "1/0", "WEBSERVICE(\"http://example.org\")"))
	case 2:
		_ = f.SetCellValue("Sheet1", "B2", hostileWord(r))
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		return []byte(text)
	}
	return buf.Bytes()
}

func odsOf(r *rand.Rand, text string) []byte {
	var body strings.Builder
	for row := range strings.Lines(text) {
		body.WriteString("<table:table-row>")
		for cell := range strings.SplitSeq(strings.TrimSpace(row), ",") {
			fmt.Fprintf(&body, "<table:table-cell%s><text:p>%s</text:p></table:table-cell>",
				pick(r, "", "", "", ` table:number-columns-repeated="`+pick(r, "0", "-1", "16384", "99999999999", "x")+`"`), strings.NewReplacer("<", "&lt;", "&", "&amp;").Replace(cell))
		}
		body.WriteString("</table:table-row>")
	}
	all := "<d>" + pick(r, "", strings.Repeat("<a>", 200_000)) + "<table:table>" + body.String() + "</table:table></d>"
	switch r.IntN(5) {
	case 0: // entities that stand for each other
		all = `<!DOCTYPE d [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c SYSTEM "file:///etc/passwd">]>` + strings.Replace(all, "</text:p>", "&b;&c;</text:p>", 1)
	case 1:
		all = mangled(r, all)
	case 2:
		all = strings.Replace(all, "</text:p>", strings.Repeat(" ", 60<<20)+"</text:p>", 1)
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range pick(r, []string{"content.xml"}, []string{"../../content.xml", "content.xml"}, slices.Repeat([]string{"content.xml"}, 50)) {
		if out, err := z.Create(name); err == nil {
			_, _ = out.Write([]byte(all))
		}
	}
	_ = z.Close()
	return b.Bytes()
}
