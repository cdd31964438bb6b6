package run

import (
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// AddBatch writes down a mix of a bucket: a row below tiles/batches.csv. What is
// there stays byte for byte.
func AddBatch(dir folder.Folder, row record.Cells) error {
	return addRow(dir, func(r Records) error { return record.AddBatch(dir, r.Wall.Log.Dates, row) })
}

// AddLoad writes down a firing: a row below tiles/loads.csv.
func AddLoad(dir folder.Folder, row record.Cells) error {
	return addRow(dir, func(r Records) error { return record.AddLoad(dir, r.Wall.Log.Dates, row) })
}

// addRow changes one record of a wall that can be read.
func addRow(dir folder.Folder, add func(Records) error) error {
	c, err := take(dir)
	if err != nil {
		return err
	}
	defer c.end()
	r, err := LoadRecords(dir)
	if err != nil {
		return err
	}
	if err := c.begin(); err != nil {
		return err
	}
	return add(r)
}
