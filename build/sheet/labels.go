package sheet

import (
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Labels writes a label for every tile that hangs or will hang, in the order
// of the plan: its number, the two glazes in the order of dipping in words and
// as a drawing, and a QR code of the tile's page.
func Labels(w io.Writer, job Job) (pages int, err error) {
	sheet, err := FindLabelSheet(job.Wall.Settings)
	if err != nil {
		return 0, err
	}
	if doubt := uneven(sheet); doubt != "" {
		job.say(doubt)
	}
	due := job.due()
	if len(due) == 0 {
		return 0, ErrNothing
	}
	paperSize, err := labelPaper(sheet)
	if err != nil {
		return 0, err
	}
	p, err := newPaper(job, paperSize, "Tile labels")
	if err != nil {
		return 0, err
	}
	p.lang = job.Wall.Language
	l := newLabeler(p, sheet)
	l.layout = l.choose(due)
	if err := l.all(due); err != nil {
		return 0, err
	}
	return p.write(w)
}

// labeler prints labels one after the other.
type labeler struct {
	*paper
	sheet   tiles.LabelSheet
	layout  labelLayout
	names   map[setKey]setCoat
	longest tiles.Number // the widest on the wall: what stands beside a number begins at one place on every label
	short   int          // labels whose QR code holds the number alone
	small   int          // labels of two coats with no room to say what they are not
	edge    float64      // the strip along the paper's edge that stays white, mm
	dot     float64      // a label printer's dot, mm; 0 = not on a roll
}

func newLabeler(p *paper, sheet tiles.LabelSheet) labeler {
	l := labeler{paper: p, sheet: sheet, names: map[setKey]setCoat{}, longest: p.widest(p.job.Wall.Tiles), edge: paperEdge}
	if sheet.Paper == tiles.PaperRoll {
		l.edge, l.dot = rollEdge, inch/float64(sheet.DPI)
	}
	return l
}

func (l *labeler) all(due []tiles.Tile) error {
	perPage := l.sheet.Columns * l.sheet.Rows
	start, err := l.start(perPage)
	if err != nil {
		return err
	}
	for i, t := range due {
		at := start + i
		if i == 0 || at%perPage == 0 {
			if err := l.page(); err != nil {
				return err
			}
			l.cutLines(start+len(due)-at, perPage)
		}
		if err := l.label(l.place(at%perPage), t); err != nil {
			l.fail(tiles.Problem{File: l.job.list(), What: "the name " + err.Error(),
				Do: "shorten the name, or choose a larger label in wall.yaml (labels: sheet)"})
		}
		if i == 0 || at%perPage == 0 {
			last := due[min(len(due), i+perPage-at%perPage)-1]
			l.bookmark(0, fmt.Sprintf("Tiles %d to %d", t.Number, last.Number))
		}
	}
	if l.short > 0 {
		l.job.say(english.Count(l.short, "label is", "labels are") + " too small for a QR code of the site's address: the code there says the tile's number alone")
	}
	if l.small > 0 {
		l.job.say(english.Count(l.small, "label of two coats has", "labels of two coats have") + " no room for “not tested for food”: say it on the wall, or choose a larger label")
	}
	return nil
}

// cutLines draws where plain paper is cut, around so many labels.
func (l *labeler) cutLines(labels, perPage int) {
	if !l.sheet.Cut {
		return
	}
	for i := range min(labels, perPage) {
		a := l.place(i)
		l.box(a.x, a.y, a.w, a.h, hair)
	}
}

// start is the place of the first label on the first sheet, 0 and up.
func (l *labeler) start(perPage int) (int, error) {
	start := max(l.job.Wall.Labels.Start, 1)
	if start > perPage {
		return 0, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("labels: start is %d, but a sheet of %s has %d labels", start, l.sheet.Name, perPage),
			Do: fmt.Sprintf("write 1 to %d", perPage)}
	}
	return start - 1, nil
}

// place is where the i-th label of a sheet stands: row by row, from the top
// left, moved by the printer's own offset.
func (l *labeler) place(i int) area {
	s := l.sheet
	return area{
		x: s.Left + float64(i%s.Columns)*s.PitchX + l.job.Wall.Labels.Right,
		y: s.Top + float64(i/s.Columns)*s.PitchY + l.job.Wall.Labels.Down,
		w: s.Width, h: s.Height,
	}
}

// paperEdge is the strip along the paper's edge that printers may leave white,
// mm (common practice, found written: 6.35). A label printer feeds to a
// millimetre or so (common practice, no source).
const paperEdge, rollEdge = 6.35, 1.5

// inside is the part of a label that may be printed: inset from its edges, and
// clear of the paper's.
func (l *labeler) inside(a area) area {
	inset := min(2.5, a.h/12)
	x1, y1 := max(a.x+inset, l.edge), max(a.y+inset, l.edge)
	x2, y2 := min(a.x+a.w-inset, l.w-l.edge), min(a.y+a.h-inset, l.h-l.edge)
	return area{x1, y1, x2 - x1, y2 - y1}
}
