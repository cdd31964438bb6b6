package bench

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/content"
)

// TestTheStudioChangesOnlyWhatWasTyped, and nothing else of wall.yaml.
func TestTheStudioChangesOnlyWhatWasTyped(t *testing.T) {
	dir := newWall(t)
	c := open(t, dir.Dir())
	read := func() string {
		text, err := os.ReadFile(dir.Path(content.SettingsFile))
		require.NoError(t, err)
		return string(text)
	}
	was := read()
	p := c.send(c.get("/studio"), "#studio", "/studio/save", nil)
	require.Contains(t, p.text, "Nothing was changed.")
	require.Equal(t, was, read())

	p = c.send(c.get("/studio"), "#studio", "/studio/save", map[string][]string{"tile.bare": {"2 cm"}, "kiln.upright": nil, "clay.body": {"06"}, "shelf-name.3": {"lowest"}, "shelf-shape.3": {"rectangle"}, "shelf-width.3": {"400"}, "shelf-depth.3": {"300"}})
	require.Equal(t, 200, p.status, p.main())
	want := strings.NewReplacer("  bare: 12             #", "  bare: 20             #", "  upright: true\n", "  upright: false\n", `  body: ""             #`, `  body: "06"           #`,
		"    - {name: bottom, shape: round, width: 380}\n", "    - {name: bottom, shape: round, width: 380}\n    - {name: lowest, shape: rectangle, width: 400, depth: 300}\n").Replace(was)
	require.Equal(t, want, read())

	c.send(c.get("/studio"), "#studio", "/studio/save", map[string][]string{"units": {"us"}})
	p = c.get("/studio")
	require.Equal(t, "2.362", p.value("tile.width"))
	want = strings.Replace(want, "units: metric          #", "units: us              #", 1)
	require.Equal(t, want, read(), "a length that is only shown in inches is not rounded to them")
	p = c.send(p, "#studio", "/studio/save", map[string][]string{"tile.height": {"3½"}})
	require.Equal(t, 200, p.status, p.main())
	require.Equal(t, strings.Replace(want, "height: 90\n", "height: 88.9\n", 1), read())
}

// TestTheStudioSaysWhatIsWrongBesideIt, and draws what can be drawn.
func TestTheStudioSaysWhatIsWrongBesideIt(t *testing.T) {
	dir := newWall(t)
	c := open(t, dir.Dir())
	for _, w := range []struct{ field, typed, says string }{
		{"tile.width", "wide", `"wide" is no length`},
		{"tile.width", "5000", "it must be 10 to 500 mm"},
		{"tile.first-dip", "10", "do not fit"},
		{"labels.start", "x", "is no whole number"},
		{"cone", "hot", "write it as it stands on the cone"},
		{"address", "here", "write the whole address"},
		{"dip.seconds", "NaN", "is no number"},
		{"tile.hole", "1/0", "is no length"},
	} {
		p := c.send(c.get("/studio"), "#studio", "/studio/save", map[string][]string{w.field: {w.typed}})
		require.Equal(t, 422, p.status)
		require.Contains(t, p.Find(`[data-field="`+w.field+`"]`).Text(), w.says)
		require.Equal(t, w.typed, p.value(w.field))
		answer := c.send(c.get("/studio"), "#studio", "/studio/drawing", map[string][]string{w.field: {w.typed}})
		require.Equal(t, 200, answer.status)
		require.Contains(t, answer.text, `"wrong":{"`+w.field)
	}
	answer := c.send(c.get("/studio"), "#studio", "/studio/drawing", map[string][]string{"tile.bare": {"30"}, "kiln.name": {"</svg><script>"}})
	require.Contains(t, answer.text, "30 mm bare")
	require.NotContains(t, answer.text, "<script>")
	answer = c.send(c.get("/studio"), "#studio", "/studio/drawing", map[string][]string{"tile.bare": {"5"}})
	require.Contains(t, answer.text, "may fuse to its shelf", "what is unwise is said")
	p := c.send(c.get("/studio"), "#studio", "/studio/show", map[string][]string{"tile.bare": {"30"}})
	require.Contains(t, p.main(), "30 mm bare")
	require.Equal(t, "30", p.value("tile.bare"))
}

// TestAStudioThatCannotBeReadIsMended on the page.
func TestAStudioThatCannotBeReadIsMended(t *testing.T) {
	dir := newWall(t)
	require.NoError(t, dir.WriteBytes(content.SettingsFile, []byte("# mine\npaper letter\n")))
	c := open(t, dir.Dir())
	p := c.get("/studio")
	require.Contains(t, p.main(), "cannot be read as it is")
	p = c.send(p, "form[action='/studio/text']", "/studio/text", map[string][]string{"text": {"# mine\r\npaper: letter\r\n"}})
	require.Equal(t, 200, p.status, p.main())
	text, err := os.ReadFile(dir.Path(content.SettingsFile))
	require.NoError(t, err)
	require.Equal(t, "# mine\npaper: letter\n", string(text))
}

// TestAStaleStudioIsRefused.
func TestAStaleStudioIsRefused(t *testing.T) {
	dir := newWall(t)
	c := open(t, dir.Dir())
	p := c.get("/studio")
	require.NoError(t, dir.WriteBytes(content.SettingsFile, []byte("name: Others’\n")))
	p = c.send(p, "#studio", "/studio/save", map[string][]string{"tile.bare": {"30"}})
	require.Equal(t, 409, p.status)
	require.Contains(t, p.Find(".two").Text(), "Others’")
}

// TestTypedLength against the definition of the international inch (1959).
func TestTypedLength(t *testing.T) {
	for typed, mm := range map[string]float64{"60": 60, "60 mm": 60, "6 cm": 60, "2,5": 2.5, "2 1/2 in": 63.5, "2½\"": 63.5, "½ in": 12.7, "-1.5": -1.5, "1 in.": 25.4, "": 0} {
		got, err := typedLength(typed, 1, "mm")
		require.NoError(t, err, typed)
		require.Equal(t, mm, got, typed)
	}
	rapid.Check(t, func(t *rapid.T) {
		mm := float64(rapid.IntRange(0, 5_000_000).Draw(t, "mm")) / 1000
		in := rapid.SampledFrom([]string{"mm", "in"}).Draw(t, "in")
		got, err := typedLength(shownLength(mm, in), mm, in)
		require.NoError(t, err)
		require.Equal(t, mm, got)
	})
}
