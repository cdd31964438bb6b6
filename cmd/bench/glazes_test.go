package bench

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// listOf is the wall's glaze list as it stands in its file.
func listOf(t *testing.T, dir folder.Folder) string {
	t.Helper()
	text, err := os.ReadFile(dir.Path(content.GlazesCSV))
	require.NoError(t, err)
	return string(text)
}

// TestGlazesAreTypedAndSaved without script: one cell, a new row with a code
// proposed, an order; the rest of the file stays to the letter.
func TestGlazesAreTypedAndSaved(t *testing.T) {
	dir := newWall(t)
	own := "\ufeffName ;code;mine\r\n# whites\r\n\"Quarry; Milk\"; QM ;\" x \"\r\nFen Glass;FG;\r\n"
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(own)))
	c := open(t, dir.Dir())
	p := c.get("/glazes")
	require.Equal(t, "Quarry; Milk", p.value("name.0"))
	require.Equal(t, "x", p.value("mine.0"))

	p = c.send(p, "#glazes", "/glazes/save", map[string][]string{"name.1": {"Fen Glass Two"}, "name.2": {"Quarry Marl"}, "traits.2": {"runny", "colorant"}})
	require.Equal(t, 422, p.status)
	require.Contains(t, p.main(), "1 code was proposed")
	require.Equal(t, "QU", p.value("code.2"))
	require.Equal(t, own, listOf(t, dir), "nothing is written before it was looked at")

	p = c.send(p, "#glazes", "/glazes/save", nil)
	require.Equal(t, 200, p.status)
	require.Contains(t, p.text, "Saved: 3 glazes are in content/glazes.csv.")
	require.Equal(t, "\ufeffName ;code;mine;traits\r\n# whites\r\n\"Quarry; Milk\"; QM ;\" x \"\r\nFen Glass Two;FG;\r\nQuarry Marl;QU;;\"runny; colorant\"\r\n", listOf(t, dir))

	p = c.send(p, "#glazes", "/glazes/shift", map[string][]string{"up": {"2"}})
	require.Equal(t, "Quarry Marl", p.value("name.1"))
	p = c.send(p, "#glazes", "/glazes/save", map[string][]string{"gone.0": {"yes"}})
	require.Equal(t, 200, p.status, p.main())
	require.Equal(t, "\ufeffName ;code;mine;traits\r\nQuarry Marl;QU;;\"runny; colorant\"\r\n# whites\r\nFen Glass Two;FG;\r\n", listOf(t, dir))
}

// TestGlazesSayWhatIsWrongBesideIt, on saving and as it is typed.
func TestGlazesSayWhatIsWrongBesideIt(t *testing.T) {
	dir := newWall(t)
	c := open(t, dir.Dir())
	was := listOf(t, dir)
	typed := map[string][]string{"code.1": {"w"}, "sg.2": {"3"}, "shade.0": {"grey"}, "name.3": {"<script>alert(1)</script>"}, "code.3": {"=1+1"}}
	p := c.send(c.get("/glazes"), "#glazes", "/glazes/save", typed)
	require.Equal(t, 422, p.status)
	says := func(row, column string) string {
		return p.Find(`tbody[data-row="` + row + `"] [data-column="` + column + `"]`).Text()
	}
	require.Equal(t, "The code w is also in row 1 (Plain White); give one of the two another code.", says("1", "code"))
	require.Contains(t, says("2", "sg"), "The specific gravity is \"3\"")
	require.Contains(t, says("0", "shade"), "The shade is \"grey\"; write light, mid or dark")
	require.Contains(t, says("3", "code"), "is not 1 to 4 letters or digits")
	require.Equal(t, "<script>alert(1)</script>", p.value("name.3"))
	require.NotContains(t, p.text, "<script>alert")
	require.Contains(t, p.main(), "4 places are marked below")
	require.Equal(t, was, listOf(t, dir))

	answer := c.send(c.get("/glazes"), "#glazes", "/glazes/check", typed)
	require.Equal(t, 200, answer.status)
	require.Contains(t, answer.text, `{"row":"1","column":"code","says":"The code w is also`)
	answer = c.send(c.get("/glazes"), "#glazes", "/glazes/check", map[string][]string{"name.3": {"Moss Wool"}})
	require.Contains(t, answer.text, `"codes":{"3":"MW"}`)
}

// plannedWall has three glazes on tiles.
func plannedWall(t *testing.T) folder.Folder {
	t.Helper()
	dir := newWall(t)
	_, err := run.Plan(dir, run.PlanWish{})
	require.NoError(t, err)
	return dir
}

// TestAChangedCodeIsAskedAbout: the same glaze keeps every number; another one
// is another one.
func TestAChangedCodeIsAskedAbout(t *testing.T) {
	dir := plannedWall(t)
	before, err := record.ReadTiles(dir)
	require.NoError(t, err)
	c := open(t, dir.Dir())
	p := c.send(c.get("/glazes"), "#glazes", "/glazes/save", map[string][]string{"code.0": {"PW"}, "finish.0": {"satin"}})
	require.Equal(t, 422, p.status)
	require.Contains(t, p.main(), "Plain White had the code W")
	require.Contains(t, p.main(), "It is on 5 tiles.")
	p = c.send(p, "#glazes", "/glazes/save", nil) // as it stands: renamed
	require.Equal(t, 200, p.status, p.main())
	after, err := record.ReadTiles(dir)
	require.NoError(t, err)
	require.Len(t, after, len(before))
	for i, was := range before {
		require.Equal(t, was.Number, after[i].Number)
		require.Equal(t, was.Status, after[i].Status)
		require.Equal(t, strings.ReplaceAll(was.First+"/"+was.Second, "W", "PW"), after[i].First+"/"+after[i].Second)
	}
	require.Contains(t, listOf(t, dir), "PW,Plain White,satin,6,white,,,,,light\n")

	p = c.send(c.get("/glazes"), "#glazes", "/glazes/save", map[string][]string{"code.1": {"CC"}})
	p = c.send(p, "#glazes", "/glazes/save", map[string][]string{"leaves.C": {"other"}})
	require.Equal(t, 200, p.status, p.main())
	same, err := record.ReadTiles(dir)
	require.NoError(t, err)
	require.Equal(t, after, same, "the plan alone takes tiles out of use")
}

// TestAGlazeThatIsTakenOutIsAskedAbout, and stays until that is answered.
func TestAGlazeThatIsTakenOutIsAskedAbout(t *testing.T) {
	dir := plannedWall(t)
	c := open(t, dir.Dir())
	was := listOf(t, dir)
	p := c.send(c.get("/glazes"), "#glazes", "/glazes/save", map[string][]string{"gone.0": {"yes"}})
	require.Equal(t, 422, p.status)
	require.Contains(t, p.main(), "Take it out of the list")
	require.Equal(t, was, listOf(t, dir))
	p = c.send(p, "#glazes", "/glazes/save", map[string][]string{"leaves.W": {"other"}})
	require.Equal(t, 200, p.status, p.main())
	require.NotContains(t, listOf(t, dir), "Plain White")
}

// TestAStaleListIsRefused with both versions side by side.
func TestAStaleListIsRefused(t *testing.T) {
	dir := newWall(t)
	c := open(t, dir.Dir())
	p := c.get("/glazes")
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte("code,name\nZ,Zinc Moon\n")))
	p = c.send(p, "#glazes", "/glazes/save", map[string][]string{"name.0": {"Mine Own"}})
	require.Equal(t, 409, p.status)
	require.Contains(t, p.Find(".two").Text(), "Zinc Moon")
	require.Contains(t, p.Find(".two").Text(), "W, Mine Own, white")
	require.Equal(t, "code,name\nZ,Zinc Moon\n", listOf(t, dir))
}

// TestRowsArePastedAndBrought, from cells and from a spreadsheet's file.
func TestRowsArePastedAndBrought(t *testing.T) {
	dir := newWall(t)
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte("code,name\n")))
	c := open(t, dir.Dir())
	p := c.send(c.get("/glazes"), "#glazes", "/glazes/paste", map[string][]string{"pasted": {"Quarry Milk\twarm white\nFen Glass\tpale green\n"}})
	require.Contains(t, p.main(), "2 rows were added")
	require.Equal(t, "QM", p.value("code.0"))
	p = c.send(p, "#glazes", "/glazes/save", nil)
	require.Equal(t, 200, p.status, p.main())
	require.Equal(t, "code,name,notes\nQM,Quarry Milk,warm white\nFG,Fen Glass,pale green\n", listOf(t, dir))

	book := excelize.NewFile()
	for at, v := range map[string]string{"A1": "Glaze", "B1": "Code", "A2": "Fen Glass", "B2": "fg", "C1": "Finish", "C2": "gloss", "A3": "Oat Husk", "B3": "OH"} {
		require.NoError(t, book.SetCellStr("Sheet1", at, v))
	}
	file := filepath.Join(t.TempDir(), "x.xlsx")
	require.NoError(t, book.SaveAs(file))
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	p = c.bring("/glazes/bring", "file", `C:\lists\our glazes.xlsx`, data)
	require.Contains(t, p.main(), "1 row was added and 1 was filled in.")
	require.Equal(t, "gloss", p.value("finish.1"))
	p = c.send(p, "#glazes", "/glazes/save", nil)
	require.Equal(t, 200, p.status, p.main())
	require.Contains(t, listOf(t, dir), "OH,Oat Husk")

	for name, data := range map[string]string{"a.xlsx": "no zip", "b.csv": "code,name\n\"open", "c.png": "\x89PNG\x00", "": ""} {
		p = c.bring("/glazes/bring", "file", name, []byte(data))
		require.Equal(t, 422, p.status, name)
		require.NotEmpty(t, p.Find("#w-file, .wrong").Text(), name)
	}
}

// TestAListInASpreadsheetIsShownForReading, and made into glazes.csv with the
// spreadsheet kept.
func TestAListInASpreadsheetIsShownForReading(t *testing.T) {
	dir := newWall(t)
	require.NoError(t, dir.Remove(content.GlazesCSV))
	book := excelize.NewFile()
	for at, v := range map[string]string{"A1": "code", "B1": "name", "C1": "mine", "A2": "QM", "B2": "=Quarry Milk", "C2": "kept"} {
		require.NoError(t, book.SetCellStr("Sheet1", at, v))
	}
	require.NoError(t, book.SaveAs(dir.Path(content.GlazesXLSX)))
	c := open(t, dir.Dir())
	p := c.get("/glazes")
	require.Contains(t, p.main(), "QM=Quarry Milk")
	require.Zero(t, p.Find("#glazes").Length())
	p = c.send(p, "form[action='/glazes/book']", "/glazes/book", nil)
	require.Equal(t, 200, p.status, p.main())
	require.Contains(t, p.text, "content/list-1-as-it-was.xlsx")
	require.Equal(t, "code,name,mine\nQM,'=Quarry Milk,kept\n", listOf(t, dir))
	require.True(t, dir.Has("content/list-1-as-it-was.xlsx"))
	require.False(t, dir.Has(content.GlazesXLSX))
}

// TestThreeHundredGlazes go through the form.
func TestThreeHundredGlazes(t *testing.T) {
	dir := newWall(t)
	var list strings.Builder
	list.WriteString("code,name,own a,own b,own c,own d,own e,own f,own g\n")
	for i := range content.MaxGlazes {
		list.WriteString(strings.ToUpper(string([]byte{byte('a' + i/26), byte('a' + i%26)})) + ",Glaze " + strings.Repeat("long ", 5) + ",1,2,3,4,5,6,7\n")
	}
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(list.String())))
	c := open(t, dir.Dir())
	p := c.send(c.get("/glazes"), "#glazes", "/glazes/save", map[string][]string{"name.299": {"the last"}})
	require.Equal(t, 200, p.status, p.main())
	require.True(t, strings.HasPrefix(listOf(t, dir), list.String()[:5000]))
	require.True(t, strings.HasSuffix(listOf(t, dir), ",the last,1,2,3,4,5,6,7\n"))
}
