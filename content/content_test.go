package content

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func put(t *testing.T, dir, file, text string) {
	t.Helper()
	path := filepath.Join(dir, filepath.FromSlash(file))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

func TestThreeLinesMakeAWall(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, SettingsFile, "name: Kestrel Lane\ncone: 06\npaper: a4\n")
	s, err := ReadSettings(folder.At(dir))
	require.NoError(t, err)
	want := Defaults()
	want.Name, want.Cone, want.Paper = "Kestrel Lane", "06", "a4"
	assert.Equal(t, want, s)
	put(t, dir, SettingsFile, "")
	s, err = ReadSettings(folder.At(dir))
	require.NoError(t, err)
	assert.Equal(t, Defaults(), s)
}

// Two thirds from either side of 60 mm: lanes of 20, 20, 20 (derived).
func TestDefaultTileHasThreeEqualZones(t *testing.T) {
	z, err := Defaults().Tile.Zones()
	require.NoError(t, err)
	assert.Equal(t, tiles.Zones{First: 20, Overlap: 20, Second: 20}, z)
}

func TestEverySettingIsRead(t *testing.T) {
	s, err := ParseSettings([]byte(`
kiln:
  shelves:
    - {name: only, shape: round, width: 400}
rules:
  - first: runny
    second: runny
    do: skip
    reason: both run
log:
  headings: {Kid: maker}
`))
	require.NoError(t, err)
	assert.Equal(t, []tiles.Shelf{{Name: "only", Shape: "round", Width: 400, Depth: 400}}, s.Kiln.Shelves)
	assert.Equal(t, []tiles.Rule{{First: "runny", Second: "runny", Do: "skip", Reason: "both run", Line: 6}}, s.Rules)
	assert.Equal(t, map[string]string{"Kid": "maker"}, s.Log.Headings)
}

func TestSettingsSayWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"nmae: x":                              `wall.yaml:1: there is no setting called nmae; use one of name, address, language, cone`,
		"tile:\n  widht: 3":                    `wall.yaml:2: there is no setting called widht; use one of width, height, thickness`,
		"tile:\n  width: wide":                 `wall.yaml:2: "wide" should be a number, like 12 or 0.5`,
		"tile: 5":                              `wall.yaml:1: "5" should be a block of settings`,
		"rules: none":                          `wall.yaml:1: "none" should be a list`,
		"name: a\nname: b":                     `wall.yaml:2: name is set a second time; line 1 sets it first; remove one of the two`,
		"name: a\n b: c\n":                     `wall.yaml:2: is indented further than the line above it; begin it below the first letter of that line, or end that line with its colon`,
		"name a\ncone: 6\n":                    `wall.yaml:1: "name a" has no colon with a space after it; write a setting as its name, a colon, a space and its value, like paper: a4`,
		"name: x\ncone:6\npaper: a4\n":         `wall.yaml:2: "cone:6" has no colon with a space after it`,
		"name: A: the wall\n":                  `wall.yaml:1: holds a second colon; put all that stands after the first one in quotation marks`,
		"name: a\npaper: a4: b\nunits: us\n":   `wall.yaml:2: holds a second colon`,
		"tile:\n\twidth: 3\n":                  `wall.yaml:2: begins with a tab; indent it with spaces`,
		"tile:\n  width: 2.5 in\n":             `wall.yaml:2: "2.5 in" should be a number of millimetres, without a unit; write 63.5`,
		"tile:\n  width: 6 cm\n":               `wall.yaml:2: "6 cm" should be a number of millimetres, without a unit; write 60`,
		"name: \"a\ncone: 6\n":                 `wall.yaml:1: opens a quotation mark that is never closed; close it at the end of the text`,
		"cone: six":                            `wall.yaml:1: cone is "six"; write it as it stands on the cone`,
		"name: a\n\npaper: A3":                 `wall.yaml:3: paper is "A3"; write one of letter, a4`,
		"tile:\n  height: .nan":                `wall.yaml:2: ".nan" is no number to reckon with`,
		"tile:\n  first-dip: 90":               `wall.yaml:2: tile: first-dip and second-dip do not fit: a dip of 90 mm is deeper than the 60 mm of glazed tile`,
		"tile: {first-dip: 20, second-dip: 2}": `do not meet on 60 mm of glazed tile; for three equal zones write 40 for both`,
		"dip:\n  coats: 3":                     `wall.yaml:2: dip: coats is 3; a wall has one coat or two; write 1 or 2`,
		"labels:\n  font: ../../secret.ttf":    `wall.yaml:2: labels: font is "../../secret.ttf", outside the wall's folder`,
		"photo:\n  paper: [93, 1]":             `photo: paper has 2 numbers`,
		"photo:\n  paper: [9, 1, 2]":           `photo: paper is 9; it must be 75 to 100 for L*`,
		"photo:\n  chart: C:\\x":               `outside the wall's folder`,
		"rules:\n  - do: ban":                  `wall.yaml:2: rule 1: do is "ban"; write one of skip, caution, allow`,
		"address: javascript:alert(1)":         `wall.yaml:1: address is "javascript:alert(1)"; write the whole address`,
		"a: &a [x]\nb: *a":                     `wall.yaml:1: has a text that begins with & or *`,
		strings.Repeat("[", 10_000):            `wall.yaml:1: is nested too deeply`,
	} {
		_, err := ParseSettings([]byte(text))
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), want)
		}
	}
}

// A "billion laughs": nine lines that would expand to 10^9 words.
func TestAnAliasBombIsRefusedBeforeItGrows(t *testing.T) {
	bomb := "a: &a [x,x,x,x,x,x,x,x,x,x]\n"
	for c := 'b'; c <= 'i'; c++ {
		prev := string(c - 1)
		bomb += string(c) + ": &" + string(c) + " [" + strings.Repeat("*"+prev+",", 9) + "*" + prev + "]\n"
	}
	_, err := ParseSettings([]byte(bomb))
	assert.ErrorContains(t, err, "begins with & or *")
	_, err = ParseGlazesYAML([]byte(bomb))
	assert.ErrorContains(t, err, "begins with & or *")
}

// The wall is near, and the sentence says where.
// A key that is no word made the library's decoder panic, beside a << .
func TestAKeyThatIsNoWord(t *testing.T) {
	for text, line := range map[string]int{"name: A\n[a, b]: 1\n<<: {name: B}\n": 2, "<<: {name: B}\n": 1, "? {a: 1}\n: 2\n": 1, "tile:\n  {a: 1}: 3\n": 2} {
		_, err := ParseSettings([]byte(text))
		require.ErrorContains(t, err, fmt.Sprintf("wall.yaml:%d: ", line), text)
	}
	_, err := ParsePage("content/a.md", []byte("---\ntitle: A\n[a]: 1\n<<: {title: B}\n---\n\ntext\n"))
	require.ErrorContains(t, err, "content/a.md:3: has a list, a block or << where a setting's name should stand")
}

func TestAWallThatIsNotQuiteHereIsSaid(t *testing.T) {
	for name, want := range map[string]string{
		"wall.yml":      "wall.yml is; rename that file to wall.yaml",
		"wall.yaml.txt": "wall.yaml.txt is; rename that file to wall.yaml",
	} {
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("name: a\n"), 0o644))
		_, err := ReadSettings(folder.At(dir))
		assert.ErrorContains(t, err, want)
		assert.ErrorIs(t, err, ErrNoWall)
	}
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "wall.yaml"), []byte("paper: A4\n"), 0o644))
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "tiles", "photos"), 0o755))
	t.Chdir(filepath.Join(dir, "tiles", "photos"))
	_, err := ReadSettings(folder.At("."))
	assert.ErrorContains(t, err, "this is inside the wall "+filepath.Base(dir)+"; use --wall ../..")
	s, err := ReadSettings(folder.At("../.."))
	require.NoError(t, err)
	assert.Equal(t, "a4", s.Paper)
}

func TestAFolderThatIsNoWallIsSaid(t *testing.T) {
	_, err := ReadSettings(folder.At(t.TempDir()))
	assert.ErrorContains(t, err, "this is not a wall's folder; name the folder with --wall, or make one with: twodip start our-wall")
}

func TestAGlazeListInEitherForm(t *testing.T) {
	want := []tiles.Glaze{
		{Code: "A", Name: "Quarry Milk", Finish: "matte", Cone: "06", Color: "cream", Notes: "stir, slowly", SG: 1.45, Shade: "light",
			Cautions: []string{"not for food", "dust"}, Traits: []tiles.Trait{tiles.Runny, tiles.NotFood}, Line: 2},
		{Code: "b2", Name: "Lamp Rust", Retired: true, Line: 3},
	}
	csv := "Code;Name;Finish;Cone;Colour;Notes;Cautions;Traits;SG;Shade;Retired;Recipe\r\n" +
		"A;Quarry  Milk ;matte;06;cream;stir, slowly;\"not for food; dust\";Runny, not food;1,45;Light;;r1\r\nb2;Lamp Rust;;;;;;;;;2025-06;\r\n;;;;;;;;;;;\r\n"
	got, err := ParseGlazesCSV([]byte("\ufeff" + csv))
	require.NoError(t, err)
	assert.Equal(t, want, got)

	yaml := "glazes:\n  - code: A\n    name: Quarry Milk\n    finish: matte\n    cone: 06\n    color: cream\n    notes: stir, slowly\n    sg: 1.45\n    shade: light\n" +
		"    cautions: [not for food, dust]\n    traits: runny; not-food\n    recipe: {silica: 20}\n  - {code: b2, name: Lamp Rust, retired: true}\n"
	got, err = ParseGlazesYAML([]byte(yaml))
	require.NoError(t, err)
	want[0].Line, want[1].Line = 2, 13
	assert.Equal(t, want, got)
}

func TestAGlazeListSaysWhatIsWrong(t *testing.T) {
	long := strings.Repeat("x", 251)
	_, err := ParseGlazesCSV([]byte("code,name,traits,sg,shade\nA,One,,,\na,Two,,,\nABCDE,Three,,,\nB-1,Four,,,\n,Five,,,\nC,,,,\nD," + long + ",,,\nE,E,drippy,45,blue\n"))
	assert.EqualError(t, err, `content/glazes.csv:3: the code a is also in line 2 (One); give one of the two another code
content/glazes.csv:4: the code "ABCDE" is not 1 to 4 letters or digits; shorten it; it is written by hand on clay
content/glazes.csv:5: the code "B-1" is not 1 to 4 letters or digits; shorten it; it is written by hand on clay
content/glazes.csv:6: there is no code; give the glaze 1 to 4 letters or digits, unlike any other's
content/glazes.csv:7: the glaze C has no name; write what people call it
content/glazes.csv:8: the name has 251 letters; shorten it to 250
content/glazes.csv:9: the shade is "blue"; write light, mid or dark, or leave it empty
content/glazes.csv:9: there is no trait "drippy"; use one of runny, crawls, slick, soluble, colorant, not-food, never-first, never-second
content/glazes.csv:9: the specific gravity is "45"; write the weight of 100 ml in grams divided by 100, like 1.45`)
	for text, want := range map[string]string{
		"code,title\nA,x\n": "content/glazes.csv:1: there is no column name; the first row must hold the headings code, name",
		"code,name\n":       "content/glazes.csv: lists no glaze; write a row for each bucket: a code and a name",
		"":                  "content/glazes.csv: the file is empty",
	} {
		_, err := ParseGlazesCSV([]byte(text))
		assert.ErrorContains(t, err, want)
	}
	for text, want := range map[string]string{
		"":                              "content/glazes.yaml: lists no glaze",
		"glazes:\n":                     "content/glazes.yaml: lists no glaze",
		"A: x\nB: y\n":                  "content/glazes.yaml:1: is not a list of glazes; begin each glaze with a dash:  - code: A",
		"- A\n":                         "content/glazes.yaml:1: is not a glaze; write a code and a name below a dash",
		"- code: A\n  name: [x]\n":      "content/glazes.yaml:2: name should be a text on one line",
		"- code: A\n  code: B\n":        "content/glazes.yaml:2: code is set twice for one glaze",
		"- code: A\n  name: One\n  - x": "content/glazes.yaml:3: has a dash where no list can begin",
		"- code: A\n  name: \"One\n":    "content/glazes.yaml:2: opens a quotation mark",
		"- traits: [{}]\n":              "traits, entry 1, should be a text on one line",
	} {
		_, err := ParseGlazesYAML([]byte(text))
		assert.ErrorContains(t, err, want, text)
	}
}

func TestOneGlazeListExactly(t *testing.T) {
	dir := t.TempDir()
	_, err := ReadGlazes(folder.At(dir))
	assert.EqualError(t, err, "content/glazes.csv: there is no glaze list; write one with the headings code,name and a row for each bucket")
	put(t, dir, "content/glazes.numbers", "PK")
	_, err = ReadGlazes(folder.At(dir))
	assert.ErrorContains(t, err, `content/glazes.numbers: is a spreadsheet's own form; open it in the spreadsheet and save it as "CSV UTF-8"`)
	put(t, dir, GlazesYAML, "- {code: A, name: One}\n")
	got, err := ReadGlazes(folder.At(dir))
	require.NoError(t, err)
	assert.Len(t, got, 1, "one glaze is a wall")
	put(t, dir, GlazesCSV, "code,name\nA,One\n")
	_, err = ReadGlazes(folder.At(dir))
	assert.ErrorContains(t, err, "content/glazes.csv: there is also content/glazes.yaml")
}

// TestAGlazeListAsTheSpreadsheetSavedIt: no "save as CSV" first. What is wrong
// is said by the row of the sheet.
func TestAGlazeListAsTheSpreadsheetSavedIt(t *testing.T) {
	for _, form := range []string{GlazesXLSX, GlazesODS} {
		dir := t.TempDir()
		data, err := os.ReadFile(filepath.Join("..", "tiles", "table", "book", "testdata", filepath.Base(form)))
		require.NoError(t, err)
		put(t, dir, form, string(data))
		_, err = ReadGlazes(folder.At(dir))
		assert.ErrorContains(t, err, form+":5: ", "the code =cmd stands in row 5")
	}
}

func TestRulesNameGlazesThatAreThere(t *testing.T) {
	s, err := ParseSettings([]byte("rules:\n- {first: Runny, either: a, do: skip}\n- {second: Z, do: skip}\nkiln: {controls: [B]}\npart: {prefer: [Q]}\n"))
	require.NoError(t, err)
	ps := CheckRules(s, []tiles.Glaze{{Code: "A"}, {Code: "B"}})
	assert.EqualError(t, ps, "wall.yaml:3: a rule names Z, which is neither a glaze code nor a trait; the codes are A, B\n"+
		"wall.yaml: part: prefer names the code Q, which is not in the glaze list; the codes are A, B")
}

func TestHostileNamesAreShownAsTheyAreButHarmless(t *testing.T) {
	got, err := ParseGlazesCSV([]byte("code,name\nA,<script>alert(1)</script>\nB,'=cmd()\nC,../../etc\nD,a\u202eb\u2066\x07c\nE,\"two\nlines\"\n"))
	require.NoError(t, err)
	var names []string
	for _, g := range got {
		names = append(names, g.Name)
	}
	assert.Equal(t, []string{"<script>alert(1)</script>", "=cmd()", "../../etc", "abc", "two lines"}, names)
}

func TestPages(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "content/Kiln Room.md", "---\ntitle: The kiln room\norder: 2\n---\n# Ignored\n")
	put(t, dir, "content/before.md", "\r\n---\r\norder: 1\r\n---\r\n\r\n# Before you glaze #\r\ntext\r\n")
	put(t, dir, "content/how_we_dip.md", "No heading.\n")
	put(t, dir, "content/README.md", "not a page")
	put(t, dir, "content/_draft.md", "not a page")
	put(t, dir, "content/glazes.csv", "code,name")
	pages, err := ReadPages(folder.At(dir))
	require.NoError(t, err)
	require.Len(t, pages, 3)
	assert.Equal(t, Page{File: "content/how_we_dip.md", Slug: "how-we-dip", Title: "How we dip", Body: []byte("No heading.\n"), Line: 1}, pages[0])
	assert.Equal(t, Page{File: "content/before.md", Slug: "before", Title: "Before you glaze", Order: 1, Body: []byte("\n# Before you glaze #\ntext\n"), Line: 5}, pages[1])
	assert.Equal(t, Page{File: "content/Kiln Room.md", Slug: "kiln-room", Title: "The kiln room", Order: 2, Body: []byte("# Ignored\n"), Line: 5}, pages[2])
}

func TestPagesSayWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "content/a.md", "---\ntitle: x\nauthor: y\n---\n")
	put(t, dir, "content/b.md", "---\ntitle: x\n")
	put(t, dir, "content/c d.md", "x")
	put(t, dir, "content/c-d.md", "x")
	put(t, dir, "content/e.md", "\xff")
	outside := filepath.Join(t.TempDir(), "secret.md")
	require.NoError(t, os.WriteFile(outside, []byte("secret"), 0o600))
	require.NoError(t, os.Symlink(outside, filepath.Join(dir, "content", "f.md")))
	_, err := ReadPages(folder.At(dir))
	assert.EqualError(t, err, `content/a.md:3: there is no setting called author; use one of title, order
content/b.md:1: the front matter has no end; close it with a line of three hyphens
content/e.md: is not text in UTF-8; save it again as plain text, UTF-8
content/f.md: is a link to a place outside the wall's folder; put the file itself here
content/c-d.md: would have the same address as content/c d.md; rename one of the two files`)
}

// Every number of the settings, by every way that YAML 1.2.2 (10.2.1.4) has of
// writing one that is none or has no end.
func TestNoNumberIsWithoutEnd(t *testing.T) {
	settings := func(name, value string) string {
		var b strings.Builder
		indent := ""
		for _, part := range strings.Split(name, ".") {
			b.WriteString(indent + part + ":")
			if indent += "  "; !strings.HasSuffix(name, part) {
				b.WriteString("\n")
			}
		}
		return b.String() + " " + value + "\n"
	}
	for _, name := range []string{"tile.first-dip", "tile.second-dip", "tile.width", "tile.bare", "kiln.gap", "kiln.height", "read-from", "dip.seconds",
		"dip.thickness", "dip.dry", "clay.density", "labels.right", "photo.board.width"} {
		for _, value := range []string{".nan", ".NaN", ".NAN", ".inf", "-.inf", "+.Inf", ".INF"} {
			_, err := ParseSettings([]byte(settings(name, value)))
			assert.ErrorContains(t, err, fmt.Sprintf("wall.yaml:%d: ", strings.Count(name, ".")+1))
		}
		_, err := ParseSettings([]byte(settings(name, "1e999")))
		assert.Error(t, err, name)
	}
	_, err := ParseGlazesYAML([]byte("- code: A\n  name: x\n  sg: .inf\n"))
	assert.ErrorContains(t, err, "content/glazes.yaml:1: the specific gravity is")
	s, err := ParseSettings([]byte("name: \".inf\"\n"))
	assert.NoError(t, err)
	assert.Equal(t, ".inf", s.Name)
}
