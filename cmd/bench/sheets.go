package bench

import (
	"archive/zip"
	"context"
	"fmt"
	"io"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func sheetsRoom() room {
	return room{path: "/sheets", name: "Sheets", file: "sheets", wall: true, show: (*Bench).showSheets,
		does: map[string]does{"print": (*Bench).printSheets},
		more: map[string]moreWays{"picture": (*Bench).sheetPicture, "pdf": (*Bench).sheetPDF, "zip": (*Bench).sheetsZip},
	}
}

// sheetsPage is what the page shows.
type sheetsPage struct {
	Wrong   []string
	Drawing bool // some are still being drawn
	New     bool // only what the last plan added
	Start   int  // first free label, 0 = as wall.yaml says
	Sheets  []sheetShown
	Made    []madeFile
}

// sheetShown is a sheet that can be ticked.
type sheetShown struct {
	Name, Title, For string
	Ticked, Empty    bool
	Pages            int
	Says             string // "6 pages of Letter"
	Wrong            string
	Pictures         []pagePicture
	More             []pagePicture // of further pages
}

// pagePicture is one page, drawn.
type pagePicture struct {
	Page    int
	Address string
}

// madeFile is a PDF that lies in build/print.
type madeFile struct{ Name, Title, When, Size string }

func (sheetsPage) Reads() []string {
	return []string{content.SettingsFile, content.GlazesCSV, content.GlazesYAML, content.GlazesXLSX, content.GlazesODS, record.PlanFile}
}

func (sheetsPage) Script() string { return "sheets.js" }

// firstPages is how many pages of a sheet are shown at once.
const firstPages = 2

// usedFor says what a sheet is for, beside its title.
var usedFor = map[string]string{
	"labels":    "one a tile, for its back: number, pair and a code that a phone reads",
	"tags":      "headings and tags to hang the wall by",
	"grid":      "the whole wall at its true size, to glue together: many pages",
	"overview":  "every pair and its number on one page",
	"materials": "clay to cut, glaze to have ready",
	"numbers":   "the order in which raw tiles are numbered",
	"bisque":    "what goes into each bisque firing",
	"dips":      "bucket by bucket, what is dipped and in which order",
	"shelves":   "where each tile stands in the kiln",
	"log":       "to hang beside the buckets: what was put on which pot",
	"log-lines": "the same, a line a pot",
	"log-cards": "the same, a card a pot",
	"firing":    "schedule, cones and readings of one firing",
	"trace":     "what faulty pots have in common",
	"drift":     "buckets that moved away from their tile",
	"buckets":   "one a bucket: code, name, cautions, a line a mix",
	"safety":    "to hang beside the buckets",
	"mat":       "to lay a tile on for its photograph",
	"mat-pair":  "to lay a tile fired again beside the wall’s own, for one photograph of both",
	"board":     "marks for one photograph of the whole wall",
}

func printWish(a *asked) produce.PrintWish {
	start, _ := strconv.Atoi(a.FormValue("start"))
	return produce.PrintWish{Date: time.Now().Format(time.DateOnly), New: a.FormValue("new") != "", Start: min(max(start, 0), 999)}
}

func (b *Bench) showSheets(a *asked) (any, error) {
	wish := printWish(a)
	page := sheetsPage{New: wish.New, Start: wish.Start}
	d := b.proofs.of(a.dir, wish)
	d.wait(mostWait)
	by, over, err := d.now()
	page.Drawing = !over
	if err != nil {
		page.Wrong = sentences(err)
		return page, nil
	}
	for _, s := range sheet.Sheets() {
		page.Sheets = append(page.Sheets, shownSheet(s, by, wish))
	}
	page.Made, err = madeFiles(a.dir)
	return page, err
}

// shownSheet is a sheet as far as it is drawn.
func shownSheet(s sheet.Sheet, by map[string]proof, wish produce.PrintWish) sheetShown {
	p, drawn := by[s.Name]
	out := sheetShown{Name: s.Name, Title: s.Title, For: usedFor[s.Name], Empty: p.Empty, Ticked: !s.Asked && !p.Empty && p.Err == nil && (!wish.New || !s.Form)}
	switch {
	case !drawn:
		out.Says = "being drawn"
		return out
	case p.Empty:
		out.Says = "nothing to show yet"
		return out
	case p.Err != nil:
		out.Wrong = strings.Join(sentences(p.Err), " ")
		return out
	}
	out.Pages = p.Pages
	out.Says = english.Count(p.Pages, "page", "pages") + " of " + paperWords(p.pages.Width, p.pages.Height)
	at := func(page int) pagePicture {
		q := url.Values{"sheet": {s.Name}, "page": {strconv.Itoa(page)}}
		if wish.New {
			q.Set("new", "1")
		}
		if wish.Start > 0 {
			q.Set("start", strconv.Itoa(wish.Start))
		}
		return pagePicture{page, "/sheets/picture?" + q.Encode()}
	}
	for page := 1; page <= min(p.Pages, mostPictures); page++ {
		if page <= firstPages {
			out.Pictures = append(out.Pictures, at(page))
		} else {
			out.More = append(out.More, at(page))
		}
	}
	return out
}

// mostPictures is how many pages of a sheet are shown at all.
const mostPictures = 60

// paperWords names a paper by its size in points.
func paperWords(width, height float64) string {
	const mm = 25.4 / 72
	for _, known := range []struct {
		name string
		w, h float64
	}{{"Letter", 612, 792}, {"A4", 595.28, 841.89}} {
		switch {
		case math.Abs(width-known.w) < 2 && math.Abs(height-known.h) < 2:
			return known.name
		case math.Abs(width-known.h) < 2 && math.Abs(height-known.w) < 2:
			return known.name + ", on its side"
		}
	}
	return fmt.Sprintf("%.0f × %.0f mm", width*mm, height*mm)
}

// madeFiles are the PDFs that lie in build/print, in the order of the work.
func madeFiles(dir folder.Folder) ([]madeFile, error) {
	var out []madeFile
	for _, s := range sheet.Sheets() {
		info, err := dir.Info(printed(s.Name))
		if err != nil {
			continue
		}
		out = append(out, madeFile{s.Name, s.Title, info.ModTime().Format("2 Jan 2006, 15:04"), fmt.Sprintf("%d KB", (info.Size()+1023)/1024)})
	}
	return out, nil
}

func printed(name string) string { return "build/print/" + name + ".pdf" }

// printSheets makes the PDFs that are ticked.
func (b *Bench) printSheets(a *asked) (string, error) {
	wish := printWish(a)
	wish.Sheets = a.Form["sheet"]
	if len(wish.Sheets) == 0 {
		return "", tiles.Problem{File: "the sheets", What: "none is ticked", Do: "tick those that you want to print"}
	}
	return "", b.start("Making "+english.Count(len(wish.Sheets), "sheet", "sheets"), func(ctx context.Context, dir folder.Folder, tell run.Tell) (outcome, error) {
		wish.Tell = tell
		did, err := produce.Print(ctx, dir, wish)
		return sayPrinted(did), err
	})
}

// sayPrinted says what was made, and what a person must know beside it.
func sayPrinted(did produce.Printed) outcome {
	var o outcome
	pages := 0
	for _, m := range did.Made {
		pages += m.Pages
		o.Said = append(o.Said, m.Beside...)
	}
	if len(did.Made) > 0 {
		o.Said = append([]string{fmt.Sprintf("%s, %s, made in build/print: print them at 100 %%.",
			english.Count(len(did.Made), "sheet", "sheets"), english.Count(pages, "page", "pages"))}, o.Said...)
		o.Next = &link{Href: "/sheets#made", Text: "Open and print them"}
	}
	o.Said = append(o.Said, did.Hints...)
	if len(did.Left) > 0 {
		o.Said = append(o.Said, "Stopped before "+english.And(did.Left)+".")
	}
	for _, p := range slices.Concat(did.Warnings, did.Problems) {
		o.Wrong = append(o.Wrong, p.Error())
	}
	return o
}

// sheetPicture answers with one page of a sheet, drawn.
func (b *Bench) sheetPicture(a *asked) error {
	page, err := strconv.Atoi(a.FormValue("page"))
	if err != nil {
		return tiles.Problem{File: "the sheet", What: "no page was named"}
	}
	p, err := b.proofs.of(a.dir, printWish(a)).sheet(a.Context(), a.FormValue("sheet"))
	if err != nil {
		return err
	}
	a.w.Header().Set("Content-Type", "image/svg+xml")
	a.w.Header().Set("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'; sandbox")
	return p.pages.Picture(a.w, page)
}

// sheetPDF answers with a PDF of build/print, to be printed or saved.
func (b *Bench) sheetPDF(a *asked) error {
	name := a.FormValue("sheet")
	if !slices.Contains(produce.SheetNames(), name) {
		return tiles.Problem{File: "build/print", What: "there is no sheet of that name", Do: "choose one on the page"}
	}
	file, err := a.dir.Open(printed(name))
	if err != nil {
		return err
	}
	defer file.Close()
	// A browser shows a PDF by a page of its own, which our policy would stop;
	// it runs nothing of ours.
	a.w.Header().Set("Content-Security-Policy", "frame-ancestors 'none'")
	a.w.Header().Set("Content-Type", "application/pdf")
	a.w.Header().Set("Content-Disposition", disposition(a, name+".pdf"))
	_, err = io.Copy(a.w, file)
	return err
}

// disposition says whether a file is shown or saved.
func disposition(a *asked, name string) string {
	how := "inline"
	if a.FormValue("save") != "" {
		how = "attachment"
	}
	return how + `; filename="` + name + `"`
}

// sheetsZip answers with all PDFs of build/print in one file.
func (b *Bench) sheetsZip(a *asked) error {
	made, err := madeFiles(a.dir)
	if err != nil {
		return err
	}
	if len(made) == 0 {
		return tiles.Problem{File: "build/print", What: "no sheet was made yet", Do: "tick the sheets that you want, and make them"}
	}
	a.w.Header().Set("Content-Type", "application/zip")
	a.w.Header().Set("Content-Disposition", `attachment; filename="sheets.zip"`)
	z := zip.NewWriter(a.w)
	for _, m := range made {
		into, err := z.Create(m.Name + ".pdf")
		if err != nil {
			return err
		}
		file, err := a.dir.Open(printed(m.Name))
		if err != nil {
			return err
		}
		_, err = io.Copy(into, file)
		file.Close()
		if err != nil {
			return err
		}
	}
	return z.Close()
}
