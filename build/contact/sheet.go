package contact

import (
	_ "embed"
	"html/template"
	"io"
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
