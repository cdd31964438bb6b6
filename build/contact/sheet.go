package contact

import (
	_ "embed"
	"html/template"
	"io"
	"path"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/run"
)

//go:embed sheet.html
var headText string

//go:embed sheet.js
var script string

var head = template.Must(template.New("head").Parse(headText))

// sheet is one page of a wall's sheet as its template sees it.
type sheet struct{ run.SheetPage }

// Links lists the pages where there are several.
func (s sheet) Links() []Link {
	if s.Pages < 2 {
		return nil
	}
	links := make([]Link, s.Pages)
	for i := range links {
		links[i] = Link{path.Base(run.SheetName(i + 1)), i + 1, map[bool]string{true: "page", false: "false"}[i+1 == s.Page]}
	}
	return links
}

// Link leads to a page of the sheet.
type Link struct {
	Href    string
	Number  int
	Current string // "page" on the page itself, else "false"
}

// Join writes a page around its photos' parts, which the function writes as
// WritePart wrote them.
func Join(w io.Writer, page run.SheetPage, parts func(io.Writer) error) error {
	s := sheet{page}
	if err := head.Execute(w, s); err != nil {
		return err
	}
	if err := parts(w); err != nil {
		return err
	}
	if err := head.ExecuteTemplate(w, "pages", s.Links()); err != nil {
		return err
	}
	_, err := io.WriteString(w, "<script>\n"+script+"</script>\n</html>\n")
	return err
}

// Sheet is what measure writes the contact sheet with.
var Sheet = run.Sheet{
	Part: func(w io.Writer, photo, picture string, res measure.Result, say func(tiles.Number) string) error {
		return WritePart(w, Photo{Name: photo, View: *res.View, Readings: res.Readings, Notes: res.Notes, Say: say, Picture: picture})
	},
	Join: Join,
}
