package record

import (
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// cellsOf is one row with its cells found by our names.
type cellsOf struct {
	table.Row
	at map[string]int
}

func (r cellsOf) cell(name string) string {
	if i, ok := r.at[name]; ok {
		return r.Cell(i)
	}
	return ""
}

// eachRow reads a file that people keep by hand, row by row; no file is no
// rows. An error of take completes "file:line: …".
func eachRow(dir folder.Folder, file string, names []string, usual map[string]string, needed []string, take func(cellsOf) error) error {
	t, err := schema[struct{}]{file: file}.open(dir)
	if err != nil || t == nil {
		return err
	}
	return rowsOf(t, names, usual, needed, take)
}

// rowsOf is eachRow on a table that is in memory.
func rowsOf(t *table.Table, names []string, usual map[string]string, needed []string, take func(cellsOf) error) error {
	h, _ := newHeadings(names, nil, usual)
	at, _, _, ps := h.place(t)
	for _, n := range needed {
		if _, ok := at[n]; !ok {
			ps = append(ps, t.Problem(t.Line, "there is no column "+n, "add it to the headings"))
		}
	}
	if len(ps) > 0 {
		return ps
	}
	var wrong tiles.Problems
	for _, r := range t.Data() {
		if err := take(cellsOf{r, at}); err != nil {
			wrong = append(wrong, t.Problem(r.Line, err.Error(), ""))
		}
	}
	return wrong.OrNil()
}
