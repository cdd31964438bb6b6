package content

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles"
)

// TestResettledChangesOneValue: in its place, with the remark beside it where it
// was; a setting that is not there goes into its block.
func TestResettledChangesOneValue(t *testing.T) {
	for _, c := range []struct {
		text, want string
		do         func(*tiles.Settings)
	}{
		{"tile:\n  width: 60      # ours\n  mine: 3", "", nil}, // an unknown key cannot be read: refused
		{"# us\ntile:\n  width: 60      # ours\n", "# us\ntile:\n  width: 66.75   # ours\n", func(s *tiles.Settings) { s.Tile.Width = 66.75 }},
		{"tile: {width: 60}\n", "tile: {width: 60, bare: 20}\n", func(s *tiles.Settings) { s.Tile.Bare = 20 }},
		{"tile:\n  width: 60\n\n# kilns\nkiln:\n  gap: 12", "tile:\n  width: 60\n  bare: 20\n\n# kilns\nkiln:\n  gap: 12", func(s *tiles.Settings) { s.Tile.Bare = 20 }},
		{"tile:\n  # nothing yet\npaper: A4\n", "tile:\n  bare: 20\n  # nothing yet\npaper: A4\n", func(s *tiles.Settings) { s.Tile.Bare = 20 }},
		{"", "cone: \"06\"\n", func(s *tiles.Settings) { s.Cone = "06" }},
		{"cone: '6'\r\nname: us # me\r\n", "cone: '6'\r\nname: \"us: ours\" # me\r\n", func(s *tiles.Settings) { s.Name = "us: ours" }},
		{"kiln:\n  shelves:\n    - {name: a, shape: round, width: 300} # A\n    - name: b\n      shape: round\n      width: 300\n", // one changed, one new
			"kiln:\n  shelves:\n    - {name: a, shape: round, width: 310} # A\n    - name: b\n      shape: round\n      width: 300\n    - {name: c, shape: rectangle, width: 400, depth: 300}\n",
			func(s *tiles.Settings) {
				s.Kiln.Shelves[0].Width, s.Kiln.Shelves[0].Depth = 310, 310
				s.Kiln.Shelves = append(s.Kiln.Shelves, tiles.Shelf{Name: "c", Shape: "rectangle", Width: 400, Depth: 300})
			}},
		{"kiln:\n  shelves:\n    - {name: a, shape: round, width: 300} # A\n    # the second\n    - name: b\n      shape: round\n      width: 300\npaper: a4\n",
			"kiln:\n  shelves:\n    - {name: a, shape: round, width: 300} # A\n    # the second\npaper: a4\n",
			func(s *tiles.Settings) { s.Kiln.Shelves = s.Kiln.Shelves[:1] }},
		{"kiln:\n  shelves: [{name: a, shape: round, width: 300}, {name: b, shape: round, width: 300}]\n",
			"kiln:\n  shelves: [{name: a, shape: round, width: 300}]\n", func(s *tiles.Settings) { s.Kiln.Shelves = s.Kiln.Shelves[:1] }},
		{"rules:\n  # - {first: A}\npaper: a4\n", "rules:\n  - {first: A, do: skip, reason: \"no, never\"}\n  # - {first: A}\npaper: a4\n",
			func(s *tiles.Settings) { s.Rules = []tiles.Rule{{First: "A", Do: "skip", Reason: "no, never"}} }},
		{"kiln:\n  controls: [A]\n", "kiln:\n  controls: [A, \"06\"]\n", func(s *tiles.Settings) { s.Kiln.Controls = []string{"A", "06"} }},
	} {
		s, err := ParseSettings([]byte(c.text))
		if c.do == nil {
			require.Error(t, err)
			continue
		}
		require.NoError(t, err)
		c.do(&s)
		after, err := Resettled([]byte(c.text), s)
		require.NoError(t, err, c.text)
		require.Equal(t, c.want, string(after))
	}
}

// TestResettledKeepsEveryOtherLine, over the starter's wall.yaml and ones of
// other hands, and any edits: lines whose settings were not touched stay byte
// for byte, in their order, and the text says what was wished.
func TestResettledKeepsEveryOtherLine(t *testing.T) {
	starter, err := built.ReadFile("starter/wall.yaml")
	require.NoError(t, err)
	texts := []string{string(starter), strings.ReplaceAll(string(starter), "\n", "\r\n"), "\ufeff# only this\n",
		"name: 'É # x'\ntile: {width: 70, # wide\n  height: 100}\nkiln: {shelves: [{name: a, shape: rectangle, width: 300, depth: 200}]}\n",
		"tile:\n    width:   70   # w\n\n    height:  100\ndip:\n    seconds: 3 # s\nlabels:\n    sheets:\n    - name: ours\n      paper: a4\n      columns: 3\n      rows: 7\n      width: 63.5\n      height: 38.1\n      left: 7.25\n      top: 15.15\n      pitch-x: 66\n      pitch-y: 38.1\n"}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "text")
		s, err := ParseSettings([]byte(text))
		require.NoError(t, err)
		n := func(low, high int) float64 { return float64(rapid.IntRange(low*4, high*4).Draw(t, "number")) / 4 }
		var keys []string
		for _, e := range []struct {
			key string
			do  func()
		}{
			{"width", func() { s.Tile.Width = n(60, 88); s.Tile.FirstDip, s.Tile.SecondDip = 45, 45 }},
			{"first-dip", func() { s.Tile.Width, s.Tile.FirstDip, s.Tile.SecondDip = 60, 40, n(30, 50) }},
			{"bare", func() { s.Tile.Bare = n(6, 30) }},
			{"name", func() { s.Name = rapid.StringMatching(`[a-zA-Z0-9é:#'"&*!{},\[\]%@-]{1,20}`).Draw(t, "name") }},
			{"cone", func() { s.Cone = rapid.SampledFrom([]string{"6", "06", "5½", "5-6"}).Draw(t, "cone") }},
			{"gap", func() { s.Kiln.Gap = n(6, 40) }},
			{"upright", func() { s.Kiln.Upright = !s.Kiln.Upright }},
			{"seconds", func() { s.Dip.Seconds = n(1, 9) }},
			{"sheet", func() { s.Labels.Sheet = rapid.SampledFrom([]string{"a4-21", "letter-30", ""}).Draw(t, "sheet") }},
			{"body", func() { s.Clay.Body = rapid.SampledFrom([]string{"ours", "06", "yes", "a: b"}).Draw(t, "body") }},
			{"pairs", func() { s.Part.Pairs = rapid.IntRange(0, 9).Draw(t, "pairs") }},
			{"shelves", func() {
				s.Kiln.Shelves = s.Kiln.Shelves[:rapid.IntRange(1, len(s.Kiln.Shelves)).Draw(t, "shelves")]
				for i := range rapid.IntRange(0, 2).Draw(t, "new shelves") {
					s.Kiln.Shelves = append(s.Kiln.Shelves, tiles.Shelf{Name: fmt.Sprint("new ", i), Shape: "rectangle", Width: n(100, 400), Depth: 300})
				}
			}},
		} {
			if rapid.Bool().Draw(t, e.key) {
				e.do()
				keys = append(keys, e.key)
			}
		}
		after, err := Resettled([]byte(text), s)
		require.NoError(t, err, text)
		keys = append(keys, "second-dip", "first-dip", "width", "{name", "height")
		at := 0
		now := strings.SplitAfter(string(after), "\n")
		for _, line := range strings.SplitAfter(text, "\n") {
			if touched(line, keys) {
				continue
			}
			for at < len(now) && strings.TrimRight(now[at], "\r\n") != strings.TrimRight(line, "\r\n") {
				at++
			}
			require.Less(t, at, len(now), "%q is not there any more:\n%s", line, after)
			at++
		}
		is, err := ParseSettings(after)
		require.NoError(t, err)
		require.Equal(t, s.Tile, is.Tile)
		require.Equal(t, s.Kiln.Shelves, is.Kiln.Shelves)
		require.Equal(t, tidy(s.Name), is.Name)
		again, err := Resettled(after, is)
		require.NoError(t, err)
		require.Equal(t, string(after), string(again))
	})
}

func touched(line string, keys []string) bool {
	for _, key := range keys {
		if strings.Contains(line, key+":") {
			return true
		}
	}
	return false
}
