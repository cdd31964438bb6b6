package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// built returns a built-in label sheet.
func built(t *testing.T, name string) tiles.LabelSheet {
	t.Helper()
	s, err := sheet.FindLabelSheet(tiles.Settings{Labels: tiles.Labels{Sheet: name}})
	require.NoError(t, err)
	return s
}

// Every built-in sheet closes on its paper with the same margin left and
// right, top and bottom. Paper sizes: ISO 216 and ANSI/ASME Y14.1. The label
// figures are common practice, from memory but for a4-21, which was found
// written with a left margin of 7.2.
func TestLabelSheetsClose(t *testing.T) {
	require.Len(t, sheet.LabelSheets(), 16)
	paper := map[string][2]float64{"a4": {210, 297}, "letter": {8.5 * 25.4, 11 * 25.4}}
	for _, name := range sheet.LabelSheets() {
		s := built(t, name)
		require.NoError(t, sheet.CheckLabelSheet(s))
		if s.Paper == tiles.PaperRoll {
			continue // its page is its label
		}
		right := paper[s.Paper][0] - s.Left - float64(s.Columns-1)*s.PitchX - s.Width
		bottom := paper[s.Paper][1] - s.Top - float64(s.Rows-1)*s.PitchY - s.Height
		require.InDelta(t, s.Left, right, 0.06, "%s, left and right", name)
		require.InDelta(t, s.Top, bottom, 0.06, "%s, top and bottom", name)
	}
}

func TestLabelSheetRefusedWithTheSum(t *testing.T) {
	good := tiles.LabelSheet{Name: "ours", Paper: "a4", Columns: 3, Rows: 7, Width: 63.5, Height: 38.1, Left: 7.25, Top: 15.15, PitchX: 66, PitchY: 38.1}
	require.NoError(t, sheet.CheckLabelSheet(good))
	for name, change := range map[string]func(*tiles.LabelSheet){
		"left 7.25 + 2 × pitch-x 76 + width 63.5 = 222.75 mm, but the paper has 210 mm": func(s *tiles.LabelSheet) { s.PitchX = 76 },
		"top 40 + 6 × pitch-y 38.1 + height 38.1 = 306.7 mm, but the paper has 297 mm":  func(s *tiles.LabelSheet) { s.Top = 40 },
		"pitch-x 60 mm is less than width 63.5 mm, so labels overlap":                   func(s *tiles.LabelSheet) { s.PitchX = 60 },
		"height 4 mm is too small for a label that reads (10 mm at least)":              func(s *tiles.LabelSheet) { s.Height = 4 },
		"0 columns and 7 rows":              func(s *tiles.LabelSheet) { s.Columns = 0 },
		"must be lengths in mm":             func(s *tiles.LabelSheet) { s.Left = -1 },
		`paper is "b5", which is not known`: func(s *tiles.LabelSheet) { s.Paper = "b5" },
	} {
		bad := good
		change(&bad)
		require.ErrorContains(t, sheet.CheckLabelSheet(bad), name)
	}
}

func TestFindLabelSheet(t *testing.T) {
	own := tiles.LabelSheet{Name: "Ours", Paper: "a4", Columns: 1, Rows: 1, Width: 100, Height: 50}
	s, err := sheet.FindLabelSheet(tiles.Settings{Labels: tiles.Labels{Sheet: " ours", Sheets: []tiles.LabelSheet{own}}})
	require.NoError(t, err)
	require.Equal(t, own, s)
	_, err = sheet.FindLabelSheet(tiles.Settings{Labels: tiles.Labels{Sheet: "theirs"}})
	require.ErrorContains(t, err, `sheet is "theirs", which is not known; write one of letter-30`)
	require.Equal(t, "letter-30", built(t, "").Name)
}

func TestUnevenLabelSheetIsDoubted(t *testing.T) {
	w := wallOf(glazes[:2])
	w.Labels = tiles.Labels{Sheet: "ours", Sheets: []tiles.LabelSheet{
		{Name: "ours", Paper: "a4", Columns: 3, Rows: 7, Width: 63.5, Height: 38.1, Left: 7.25, Top: 15.15, PitchX: 64, PitchY: 38.1},
	}}
	job := jobOf(w)
	var said []string
	job.Say = func(s string) { said = append(said, s) }
	drawn(t, sheet.Labels, job)
	require.Equal(t, []string{`label sheet "ours" leaves 7.25 mm at the left and 11.25 at the right, 15.15 above and 15.15 below: if the sheet is even, a figure is wrong`}, said)
}
