package record

import (
	"bytes"
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// Recode puts a glaze's new code in the place of its old one in every record of
// the wall: plan, readings, log, buckets. rows counts the rows of each file that
// changed; their other cells stay as they were typed. Each file is whole or
// untouched, so that a run that was stopped between two is simply run again.
// Errors are tiles.Problems.
func Recode(dir folder.Folder, s tiles.LogSettings, old, now string) (rows map[string]int, err error) {
	rows = map[string]int{}
	for _, in := range []struct {
		file    string
		columns []string
		names   []string
		own     map[string]string
		usual   map[string]string
	}{
		{file: PlanFile, columns: []string{"first", "second"}, names: plan.names()},
		{file: MeasuredFile, columns: []string{"first", "second"}, names: measured.names()},
		{file: LogFile, columns: []string{"first", "second", "third"}, names: LogColumns, own: s.Headings, usual: usualHeadings},
		{file: BatchesFile, columns: []string{"glaze"}, names: BatchColumns, usual: usualBatchHeadings},
	} {
		h, ps := newHeadings(in.names, in.own, in.usual)
		if len(ps) > 0 {
			return rows, ps
		}
		n, err := recode(dir, in.file, h, in.columns, old, now)
		if err != nil {
			return rows, err
		}
		if n > 0 {
			rows[in.file] = n
		}
	}
	return rows, nil
}

func recode(dir folder.Folder, file string, h headings, columns []string, old, now string) (int, error) {
	t, err := schema[struct{}]{file: file}.open(dir)
	if err != nil || t == nil {
		return 0, err
	}
	at, _, _, ps := h.place(t)
	if len(ps) > 0 {
		return 0, ps
	}
	changed := 0
	for i := range t.Rows {
		if recodeRow(&t.Rows[i], at, columns, old, now) {
			changed++
		}
	}
	if changed == 0 {
		return 0, nil
	}
	return changed, dir.Write(file, func(w io.Writer) error { return t.Write(w) })
}

func recodeRow(r *table.Row, at map[string]int, columns []string, old, now string) (changed bool) {
	for _, name := range columns {
		if i, ok := at[name]; ok && !r.Remark && tiles.SameCode(r.Cell(i), old) {
			r.Set(i, now)
			changed = true
		}
	}
	return changed
}

// ParseTiles is ReadTiles on the bytes of a plan.csv.
func ParseTiles(data []byte) ([]tiles.Tile, error) {
	t, err := table.Read(PlanFile, bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return plan.rows(t)
}
