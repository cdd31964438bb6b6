package contact

import (
	_ "embed"
	"html/template"
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/run"
)

//go:embed sheet.html
var headText string

//go:embed sheet.js
var script string

var head = template.Must(template.New("head").Parse(headText))

// Join writes the whole sheet of a wall around its photos' parts, which the
// function writes as WritePart wrote them.
func Join(w io.Writer, wall string, parts func(io.Writer) error) error {
	if err := head.Execute(w, wall); err != nil {
		return err
	}
	if err := parts(w); err != nil {
		return err
	}
	_, err := io.WriteString(w, "<script>\n"+script+"</script>\n</html>\n")
	return err
}

// Sheet is what measure writes the contact sheet with.
var Sheet = run.Sheet{
	Part: func(w io.Writer, photo string, res measure.Result, say func(tiles.Number) string) error {
		return WritePart(w, Photo{Name: photo, View: *res.View, Readings: res.Readings, Notes: res.Notes, Say: say})
	},
	Join: Join,
}
