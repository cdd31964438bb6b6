package book

import (
	"bytes"
	"errors"
	"fmt"

	"github.com/xuri/excelize/v2"
)

var errTooLarge = errors.New("more than a table holds")

// readXLSX reads Office Open XML (ECMA-376) with its cells as they are shown. A
// file that the library stumbles over is one that cannot be read.
func readXLSX(data []byte) (rows [][]string, err error) {
	defer func() {
		if p := recover(); p != nil {
			rows, err = nil, fmt.Errorf("%v", p)
		}
	}()
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: mostUnpacked, UnzipXMLSizeLimit: mostUnpacked})
	if err != nil {
		return nil, err
	}
	defer f.Close()
	for _, name := range f.GetSheetList() {
		s, err := xlsxSheet(f, name)
		if err != nil || s.holds() {
			return s.rows, err
		}
	}
	return nil, nil
}

func xlsxSheet(f *excelize.File, name string) (*sheet, error) {
	s := &sheet{}
	in, err := f.Rows(name)
	if err != nil {
		return s, err
	}
	defer in.Close()
	empty := 0
	for in.Next() {
		row, err := in.Columns()
		if err != nil {
			return s, err
		}
		if len(row) == 0 {
			empty++ // rows to the end of the sheet may be named and hold nothing
			continue
		}
		for ; empty > 0; empty-- {
			if err := s.add(nil); err != nil {
				return s, err
			}
		}
		if err := s.add(row); err != nil {
			return s, err
		}
	}
	return s, in.Error()
}
