package sheet

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"github.com/twodip/twodip/tiles"
)

// paper is a document being drawn.
type paper struct {
	pdf   *gofpdf.Fpdf
	fonts *fonts
	used  map[*typeface]bool // fonts the document has been given
	job   Job
	title string
	lang  string
	w, h  float64 // of the page, mm
	wrong tiles.Problems
	long  []string // codes of glazes whose names have no room
	where string   // on which sheet

	fromRight int // letters on this page that read from the right, less those from the left
}

// size is a page's width and height, mm.
type size struct{ w, h float64 }

func (s size) turned() size { return size{s.h, s.w} }

// The papers: ISO 216 and ANSI/ASME Y14.1.
var papers = map[string]size{
	"a4":     {210, 297},
	"letter": {215.9, 279.4},
}

// paperOf is the size of a paper by its name; a paper not named is Letter.
func paperOf(name string) (size, error) {
	if name == "" {
		name = "letter"
	}
	s, ok := papers[clean(lower(name))]
	if !ok {
		return size{}, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("paper is %q, which is not known", name), Do: "write a4 or letter"}
	}
	return s, nil
}

// newPaper opens a document. Its bytes depend on nothing but the job: the
// dates are the caller's and the catalog is sorted.
func newPaper(job Job, s size, title string) (*paper, error) {
	fonts, err := readFonts(job.Font)
	if err != nil {
		return nil, err
	}
	pdf := gofpdf.NewCustom(&gofpdf.InitType{UnitStr: "mm", Size: gofpdf.SizeType{Wd: s.w, Ht: s.h}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(job.day())
	pdf.SetModificationDate(job.day())
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	name := clean(job.Wall.Name)
	if name != "" {
		title += ", " + name
	}
	pdf.SetTitle(bmp(title), true)
	pdf.SetCreator("twodip", true)
	p := &paper{pdf: pdf, fonts: fonts, job: job, title: title, lang: "en", used: map[*typeface]bool{}, w: s.w, h: s.h}
	return p, pdf.Error()
}

// tryFont has gofpdf read a font once, because its reader panics on some that
// are damaged.
func tryFont(f *typeface) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the font is damaged: %v", r)
		}
	}()
	pdf := gofpdf.New("P", "mm", "A4", "")
	pdf.AddUTF8FontFromBytes(f.name, "", bytes.Clone(f.ttf))
	pdf.AddPage()
	pdf.SetFont(f.name, "", 10)
	if f.has('A') {
		pdf.Text(10, 10, "A")
	}
	return pdf.Output(io.Discard)
}

// page begins a page with the document's line width and colors, unless the
// printing has been stopped.
func (p *paper) page() error {
	if p.job.Stopped != nil {
		if err := p.job.Stopped(); err != nil {
			return err
		}
	}
	p.endPage()
	p.pdf.AddPage()
	p.pdf.SetDrawColor(0, 0, 0)
	p.pdf.SetFillColor(0, 0, 0)
	p.pdf.SetTextColor(0, 0, 0)
	p.pdf.SetLineCapStyle("butt")
	p.rule(thin)
	return nil
}

// fail keeps something that cannot be printed as it should; write then says
// all of it and writes nothing.
func (p *paper) fail(problem tiles.Problem) {
	if !slices.Contains(p.wrong, problem) {
		p.wrong = append(p.wrong, problem)
	}
}

// codeAlone keeps that a glaze stands by its code alone on a sheet, for its
// name has no room there.
func (p *paper) codeAlone(code, where string) {
	p.where = where
	if !slices.Contains(p.long, code) {
		p.long = append(p.long, code)
	}
}

// sayLong says once whose names had no room.
func (p *paper) sayLong() {
	switch len(p.long) {
	case 0:
	case 1:
		p.job.say(fmt.Sprintf("the name of glaze %s is too long for %s; its code stands alone there", p.long[0], p.where))
	default:
		p.job.say(fmt.Sprintf("the names of glazes %s are too long for %s; their codes stand alone there", strings.Join(p.long, ", "), p.where))
	}
}

// write ends the document, writes it, and says how many pages it has.
func (p *paper) write(w io.Writer) (pages int, err error) {
	if len(p.wrong) > 0 {
		return 0, p.wrong
	}
	p.sayLong()
	p.endPage()
	defer func() {
		// gofpdf panics on some fonts and letters; the caller gets an error.
		if r := recover(); r != nil {
			err = fmt.Errorf("writing the PDF: %v", r)
		}
	}()
	var b bytes.Buffer
	if err := p.pdf.Output(&b); err != nil {
		return 0, fmt.Errorf("writing the PDF: %w", err)
	}
	out, err := catalog(b.Bytes(), p.lang)
	if err != nil {
		return 0, err
	}
	_, err = w.Write(out)
	return p.pdf.PageCount(), err
}
