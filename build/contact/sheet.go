package contact

import (
	"bytes"
	_ "embed"
	"html/template"
	"io"
)

//go:embed sheet.html
var headText string

//go:embed sheet.js
var script string

var head = template.Must(template.New("head").Parse(headText))

// Join writes the whole sheet of a wall from its photos' parts, as WritePart
// wrote them.
func Join(w io.Writer, wall string, parts [][]byte) error {
	if err := head.Execute(w, wall); err != nil {
		return err
	}
	all := append(bytes.Join(parts, nil), ("<script>\n" + script + "</script>\n</html>\n")...)
	_, err := w.Write(all)
	return err
}
