package sheet

import (
	"fmt"
	"math"
	"strings"

	"github.com/twodip/twodip/tiles"
)

const inch = 25.4

// labelSheets are common sheets by their geometry: how many labels, on which
// paper. All but a4-21 are from memory; a test checks that each closes on its
// paper. Some makers' sheets differ by half a millimetre: copy one into
// wall.yaml and change it there, or set the printer's offset.
var labelSheets = []tiles.LabelSheet{
	{Name: "letter-30", Paper: "letter", Columns: 3, Rows: 10, Width: 2.625 * inch, Height: inch, Left: 0.1875 * inch, Top: 0.5 * inch, PitchX: 2.75 * inch, PitchY: inch},
	{Name: "letter-80", Paper: "letter", Columns: 4, Rows: 20, Width: 1.75 * inch, Height: 0.5 * inch, Left: 0.3 * inch, Top: 0.5 * inch, PitchX: 2.05 * inch, PitchY: 0.5 * inch},
	{Name: "letter-80-wide", Paper: "letter", Columns: 4, Rows: 20, Width: 1.75 * inch, Height: 0.5 * inch, Left: 0.28125 * inch, Top: 0.5 * inch, PitchX: 2.0625 * inch, PitchY: 0.5 * inch},
	{Name: "letter-20", Paper: "letter", Columns: 2, Rows: 10, Width: 4 * inch, Height: inch, Left: 0.15625 * inch, Top: 0.5 * inch, PitchX: 4.1875 * inch, PitchY: inch},
	{Name: "a4-21", Paper: "a4", Columns: 3, Rows: 7, Width: 63.5, Height: 38.1, Left: 7.25, Top: 15.15, PitchX: 66, PitchY: 38.1},
	{Name: "a4-24", Paper: "a4", Columns: 3, Rows: 8, Width: 63.5, Height: 33.9, Left: 7.25, Top: 12.9, PitchX: 66, PitchY: 33.9},
	{Name: "a4-24-full", Paper: "a4", Columns: 3, Rows: 8, Width: 70, Height: 37, Left: 0, Top: 0.5, PitchX: 70, PitchY: 37},
	{Name: "a4-24-full-36", Paper: "a4", Columns: 3, Rows: 8, Width: 70, Height: 36, Left: 0, Top: 4.5, PitchX: 70, PitchY: 36},
	{Name: "a4-40", Paper: "a4", Columns: 4, Rows: 10, Width: 48.5, Height: 25.4, Left: 8, Top: 21.5, PitchX: 48.5, PitchY: 25.4},
	{Name: "letter-plain", Paper: "letter", Columns: 3, Rows: 8, Width: 65, Height: 32, Left: 10.45, Top: 11.7, PitchX: 65, PitchY: 32, Cut: true},
	{Name: "a4-plain", Paper: "a4", Columns: 3, Rows: 8, Width: 63, Height: 34, Left: 10.5, Top: 12.5, PitchX: 63, PitchY: 34, Cut: true},
	{Name: "roll-50x30", Paper: tiles.PaperRoll, Width: 50, Height: 30, DPI: 203},
	{Name: "roll-57x32", Paper: tiles.PaperRoll, Width: 57, Height: 32, DPI: 203},
	{Name: "roll-62x29", Paper: tiles.PaperRoll, Width: 62, Height: 29, DPI: 300},
	{Name: "roll-100x50", Paper: tiles.PaperRoll, Width: 100, Height: 50, DPI: 203},
	{Name: "a4-65", Paper: "a4", Columns: 5, Rows: 13, Width: 38.1, Height: 21.2, Left: 4.75, Top: 10.7, PitchX: 40.6, PitchY: 21.2},
}

// LabelSheets lists the names of the built-in label sheets.
func LabelSheets() []string {
	names := make([]string, len(labelSheets))
	for i, s := range labelSheets {
		names[i] = s.Name
	}
	return names
}

// FindLabelSheet is the label sheet the settings name: one of their own or a
// built-in one, checked. Nothing named is the commonest sheet of the paper.
func FindLabelSheet(s tiles.Settings) (tiles.LabelSheet, error) {
	name := lower(s.Labels.Sheet)
	if name == "" {
		name = "letter-30"
		if lower(s.Paper) == "a4" {
			name = "a4-21"
		}
	}
	for _, own := range s.Labels.Sheets {
		if lower(own.Name) == name {
			return onRoll(own), CheckLabelSheet(own)
		}
	}
	for _, built := range labelSheets {
		if built.Name == name {
			return onRoll(built), nil
		}
	}
	return tiles.LabelSheet{}, tiles.Problem{
		File: "wall.yaml",
		What: fmt.Sprintf("labels: sheet is %q, which is not known", s.Labels.Sheet),
		Do:   "write one of " + strings.Join(LabelSheets(), ", ") + ", or describe your own under labels: sheets",
	}
}

// onRoll is the sheet with what a roll leaves unsaid: one label a page, from
// edge to edge, for the printer that most rolls are made for.
func onRoll(s tiles.LabelSheet) tiles.LabelSheet {
	if s.Paper != tiles.PaperRoll {
		return s
	}
	s.Columns, s.Rows, s.Left, s.Top, s.PitchX, s.PitchY = 1, 1, 0, 0, s.Width, s.Height
	if s.DPI == 0 {
		s.DPI = usualDPI
	}
	return s
}

// usualDPI is the resolution of most label printers, 8 dots a millimetre
// (common practice, no source).
const usualDPI = 203

// labelPaper is the size of a page of labels: a roll's page is its label.
func labelPaper(s tiles.LabelSheet) (size, error) {
	if s.Paper == tiles.PaperRoll {
		return size{s.Width, s.Height}, nil
	}
	return paperOf(s.Paper)
}

// CheckLabelSheet says with the sum why the labels do not close on their
// paper, or nil.
func CheckLabelSheet(s tiles.LabelSheet) error {
	s = onRoll(s)
	paper, err := labelPaper(s)
	if err != nil {
		return err
	}
	var problems tiles.Problems
	bad := func(what, do string) {
		problems = append(problems, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("label sheet %q: %s", s.Name, what), Do: do})
	}
	if s.Columns < 1 || s.Rows < 1 || s.Columns > 100 || s.Rows > 100 {
		bad(fmt.Sprintf("%d columns and %d rows", s.Columns, s.Rows), "give 1 to 100 of each")
		return problems
	}
	across := labelRun{"pitch-x", "width", "left", s.Columns, s.Left, s.PitchX, s.Width, paper.w}
	down := labelRun{"pitch-y", "height", "top", s.Rows, s.Top, s.PitchY, s.Height, paper.h}
	for _, r := range []labelRun{across, down} {
		if what := r.wrong(); what != "" {
			bad(what, "measure the sheet again")
		}
	}
	return problems.OrNil()
}

// labelRun is one direction of a label sheet: count labels from an edge, a pitch
// apart, each a length long, on a paper's length.
type labelRun struct {
	pitchName, lengthName, edgeName string
	count                           int
	edge, pitch, length, paper      float64
}

// slack is how far, mm, the sum may be over: rounding of the maker's figures.
const slack = 0.15

// wrong says what does not close, with the sum; "" where all does.
func (r labelRun) wrong() string {
	for _, v := range []float64{r.edge, r.pitch, r.length} {
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			return fmt.Sprintf("%s, %s and %s must be lengths in mm", r.edgeName, r.lengthName, r.pitchName)
		}
	}
	if r.length < 10 {
		return fmt.Sprintf("%s %s mm is too small for a label that reads (10 mm at least)", r.lengthName, inMM(r.length))
	}
	if r.count > 1 && r.pitch < r.length-slack {
		return fmt.Sprintf("%s %s mm is less than %s %s mm, so labels overlap", r.pitchName, inMM(r.pitch), r.lengthName, inMM(r.length))
	}
	if end := r.end(); end > r.paper+slack {
		return fmt.Sprintf("%s %s + %d × %s %s + %s %s = %s mm, but the paper has %s mm", r.edgeName, inMM(r.edge),
			r.count-1, r.pitchName, inMM(r.pitch), r.lengthName, inMM(r.length), inMM(end), inMM(r.paper))
	}
	return ""
}

// end is where the last label ends, mm from the edge of the paper.
func (r labelRun) end() float64 { return r.edge + float64(r.count-1)*r.pitch + r.length }

// uneven says where a label sheet's margins differ by more than a millimetre:
// most sheets are even, so a figure may be wrong. "" where all is even.
func uneven(s tiles.LabelSheet) string {
	paper, err := labelPaper(s)
	if err != nil {
		return ""
	}
	right := paper.w - s.Left - float64(s.Columns-1)*s.PitchX - s.Width
	bottom := paper.h - s.Top - float64(s.Rows-1)*s.PitchY - s.Height
	if math.Abs(right-s.Left) <= 1 && math.Abs(bottom-s.Top) <= 1 {
		return ""
	}
	return fmt.Sprintf("label sheet %q leaves %s mm at the left and %s at the right, %s above and %s below: if the sheet is even, a figure is wrong",
		s.Name, inMM(s.Left), inMM(right), inMM(s.Top), inMM(bottom))
}

// inMM writes a length with at most two decimals.
func inMM(v float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.2f", v), "0"), ".")
}
