package record

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// BatchesFile is the bucket record: one row a mix, and one more for each later
// check of its specific gravity.
const BatchesFile = "tiles/batches.csv"

// BatchColumns is the headings of a new bucket record, in order.
var BatchColumns = []string{"glaze", "batch", "mixed", "sg", "sieved", "note"}

var usualBatchHeadings = map[string]string{
	"mixed on": "mixed", "date": "mixed", "day": "mixed", "code": "glaze", "bucket": "glaze",
	"specific gravity": "sg", "sieve": "sieved", "sieved on": "sieved", "notes": "note",
}

// Specific gravities a glaze bucket can have (common practice, no source).
const leastSG, mostSG = 1.0, 2.2

// ReadBatches reads tiles/batches.csv of the wall, in the order of the file; a
// wall without one has none. Errors are tiles.Problems.
func ReadBatches(dir folder.Folder, dates tiles.DateOrder) ([]tiles.Batch, error) {
	t, err := schema[struct{}]{file: BatchesFile}.open(dir)
	if err != nil || t == nil {
		return nil, err
	}
	return batchesOf(t, dates)
}

func batchesOf(t *table.Table, dates tiles.DateOrder) ([]tiles.Batch, error) {
	var out []tiles.Batch
	err := rowsOf(t, BatchColumns, usualBatchHeadings, []string{"glaze", "batch", "mixed"}, func(r cellsOf) error {
		b := tiles.Batch{Glaze: r.cell("glaze"), Name: r.cell("batch"), Sieved: r.cell("sieved"), Note: r.cell("note"), Line: r.Line}
		for _, name := range []string{"glaze", "batch"} {
			if r.cell(name) == "" {
				return fmt.Errorf("%s is empty", name)
			}
		}
		var err error
		if b.MixedOn, err = parseDate(r.cell("mixed"), dates); err != nil {
			return fmt.Errorf("mixed %w", err)
		}
		if b.SG, err = parseSG(r.cell("sg")); err != nil {
			return err
		}
		out = append(out, b)
		return nil
	})
	return out, err
}

func parseSG(cell string) (float64, error) {
	if cell == "" {
		return 0, nil
	}
	x, err := table.Number(cell)
	if err != nil {
		return 0, fmt.Errorf("sg %q is not a number: the net grams of 100 ml ÷ 100, such as 1.45", cell)
	}
	if x >= 100*leastSG && x <= 100*mostSG {
		return 0, fmt.Errorf("sg %q looks like grams in 100 ml: write %.2f", cell, x/100)
	}
	if x < leastSG || x > mostSG {
		return 0, fmt.Errorf("sg %q is not between %.1f and %.1f", cell, leastSG, mostSG)
	}
	return x, nil
}
