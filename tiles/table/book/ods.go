package book

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
)

// readODS reads an OpenDocument spreadsheet (OASIS OpenDocument 1.3, part 3):
// the text of content.xml is what each cell shows. No kept library for it is
// served, and this much of it is small.
func readODS(data []byte) ([][]string, error) {
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	content, err := z.Open("content.xml")
	if err != nil {
		return nil, err
	}
	defer content.Close()
	in := &odsReader{xml: xml.NewDecoder(&bounded{content, mostUnpacked})}
	return in.firstSheet()
}

// bounded reads up to left bytes, then says that there is too much: a bomb
// unpacks to gigabytes.
type bounded struct {
	io.Reader
	left int64
}

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if b.left -= int64(n); b.left < 0 {
		return 0, errTooLarge
	}
	return n, err
}

// The elements and attributes that are looked at, by their local names; cells
// under a merged one are covered, and empty.
const (
	odsTable   = "table"
	odsRow     = "table-row"
	odsCell    = "table-cell"
	odsCovered = "covered-table-cell"
	odsText    = "p"
	odsNote    = "annotation"
	odsRows    = "number-rows-repeated"
	odsColumns = "number-columns-repeated"
	odsSpaces  = "s"
)

// odsReader goes through the document once.
type odsReader struct {
	xml   *xml.Decoder
	sheet *sheet
	empty int // empty rows that wait for one that is not
}

func (in *odsReader) firstSheet() ([][]string, error) {
	for {
		token, err := in.xml.Token()
		if errors.Is(err, io.EOF) {
			return nil, nil
		}
		if err != nil {
			return nil, err
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != odsTable {
			continue
		}
		in.sheet, in.empty = &sheet{}, 0
		if err := in.table(); err != nil {
			return nil, err
		}
		if in.sheet.holds() {
			return in.sheet.rows, nil
		}
	}
}

func (in *odsReader) table() error {
	return in.each(odsTable, func(start xml.StartElement) error {
		if start.Name.Local != odsRow {
			return nil
		}
		row, err := in.row()
		if err != nil {
			return err
		}
		return in.add(row, repeated(start, odsRows))
	})
}

// add takes a row that stands so many times; empty ones wait, since a sheet
// ends in a million of them.
func (in *odsReader) add(row []string, times int) error {
	if len(row) == 0 {
		in.empty = min(in.empty+times, 1<<30)
		return nil
	}
	for ; in.empty > 0; in.empty-- {
		if err := in.sheet.add(nil); err != nil {
			return err
		}
	}
	for range times {
		if err := in.sheet.add(append([]string(nil), row...)); err != nil {
			return err
		}
	}
	return nil
}

func (in *odsReader) row() ([]string, error) {
	var row []string
	blank := 0
	err := in.each(odsRow, func(start xml.StartElement) error {
		if start.Name.Local != odsCell && start.Name.Local != odsCovered {
			return nil
		}
		times := repeated(start, odsColumns)
		cell, err := in.cell(start.Name.Local)
		if err != nil || cell == "" {
			blank = min(blank+times, 1<<30)
			return err
		}
		if len(row)+blank+times > 1<<14 {
			return errTooLarge
		}
		row = append(row, make([]string, blank)...)
		blank = 0
		for range times {
			row = append(row, cell)
		}
		return nil
	})
	return row, err
}

// cell is what the cell shows, its paragraphs joined by a space. A note that
// is pinned to it is no part of it.
func (in *odsReader) cell(name string) (string, error) {
	var text []string
	err := in.each(name, func(start xml.StartElement) error {
		switch start.Name.Local {
		case odsNote:
			return in.xml.Skip()
		case odsText:
			p, err := in.paragraph()
			text = append(text, p)
			return err
		}
		return nil
	})
	return strings.TrimSpace(strings.Join(text, " ")), err
}

func (in *odsReader) paragraph() (string, error) {
	var b strings.Builder
	for depth := 1; depth > 0; {
		token, err := in.xml.Token()
		if err != nil {
			return "", err
		}
		switch t := token.(type) {
		case xml.StartElement:
			depth++
			if t.Name.Local == odsSpaces {
				b.WriteByte(' ')
			}
		case xml.EndElement:
			depth--
		case xml.CharData:
			b.Write(t)
		}
	}
	return b.String(), nil
}

// each calls do for every element inside the one of that name, which it reads
// to its end. do may read the element it is given to its own end.
func (in *odsReader) each(name string, do func(xml.StartElement) error) error {
	for {
		token, err := in.xml.Token()
		if err != nil {
			return err
		}
		switch t := token.(type) {
		case xml.StartElement:
			if err := do(t); err != nil {
				return err
			}
		case xml.EndElement:
			if t.Name.Local == name {
				return nil
			}
		}
	}
}

// repeated reads how many times an element stands; 1 where it does not say.
func repeated(start xml.StartElement, attribute string) int {
	for _, a := range start.Attr {
		if a.Name.Local == attribute {
			if n, err := strconv.Atoi(a.Value); err == nil && n > 0 {
				return min(n, 1<<24)
			}
		}
	}
	return 1
}
