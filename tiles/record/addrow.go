package record

import (
	"bytes"
	"errors"
	"io/fs"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// Cells is a row by our names of the columns: "mixed" → "2026-03-14".
type Cells map[string]string

// AddBatch puts a row below tiles/batches.csv of the wall; what is there stays
// byte for byte. Errors are tiles.Problems, and then nothing is written.
func AddBatch(dir folder.Folder, dates tiles.DateOrder, row Cells) error {
	return addRow(dir, BatchesFile, BatchColumns, usualBatchHeadings, row, func(t *table.Table) error {
		_, err := batchesOf(t, dates)
		return err
	})
}

// AddLoad puts a row below tiles/loads.csv of the wall, in the same manner.
func AddLoad(dir folder.Folder, dates tiles.DateOrder, row Cells) error {
	return addRow(dir, LoadsFile, LoadColumns, usualLoadHeadings, row, func(t *table.Table) error {
		_, err := loadsOf(t, dates)
		return err
	})
}

// mostText bounds a record that rows are added to, in bytes.
const mostText = table.MaxBytes

// readText reads a record with the text that it stands in; a wall without one
// has its headings.
func readText(dir folder.Folder, file string, columns []string) (*table.Table, []byte, error) {
	text, err := dir.Read(file, mostText)
	if errors.Is(err, fs.ErrNotExist) {
		var head bytes.Buffer
		err = table.New(file, columns...).Write(&head)
		text = head.Bytes()
	}
	if err != nil {
		return nil, nil, err
	}
	t, err := table.Read(file, bytes.NewReader(text))
	return t, text, err
}

func addRow(dir folder.Folder, file string, columns []string, usual map[string]string, row Cells, read func(*table.Table) error) error {
	t, text, err := readText(dir, file, columns)
	if err != nil {
		return err
	}
	h, _ := newHeadings(columns, nil, usual)
	at, _, _, ps := h.place(t)
	if len(ps) > 0 {
		return ps
	}
	if err := read(t); err != nil {
		return err // what is wrong already is not mended by another row
	}
	var r table.Row
	for _, name := range columns {
		if row[name] == "" {
			continue
		}
		i, ok := at[name]
		if !ok {
			i = t.AddColumn(name)
		}
		r.Set(i, row[name])
	}
	grown, err := t.Grown(text, []table.Row{r})
	if err != nil {
		return err
	}
	again, err := table.Read(file, bytes.NewReader(grown))
	if err == nil {
		err = read(again)
	}
	var ps2 tiles.Problems
	if errors.As(err, &ps2) {
		for i := range ps2 {
			ps2[i].Line = 0 // the row is not there yet: its line says nothing
		}
		return ps2
	}
	if err != nil {
		return err
	}
	return dir.WriteBytes(file, grown)
}
