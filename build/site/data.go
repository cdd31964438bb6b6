package site

import (
	"bytes"
	"encoding/json"
	"strconv"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// Row is one tile of data/tiles.json.
type Row struct {
	Tile    int       `json:"tile"`
	First   RowGlaze  `json:"first"`
	Second  *RowGlaze `json:"second"` // null on a single
	Status  string    `json:"status"`
	Load    int       `json:"load,omitempty"`
	Repeats int       `json:"repeats,omitempty"`
	Reason  string    `json:"reason,omitempty"`
	Color   *RowColor `json:"color"` // null where not measured
	Page    string    `json:"page"`
	Photo   string    `json:"photo,omitempty"`
}

// RowGlaze names a glaze.
type RowGlaze struct {
	Code string `json:"code"`
	Name string `json:"name"`
}

// RowColor is CIELAB, D50/2°, of the mean linear-light color.
type RowColor struct {
	L          float64 `json:"l"`
	A          float64 `json:"a"`
	B          float64 `json:"b"`
	Doubt      float64 `json:"doubt"` // ± ΔE00, about 95 %; 0 = not known
	Class      string  `json:"class"`
	Correction string  `json:"correction"`
	Zone       string  `json:"zone"`
	Name       string  `json:"name"`
	Hex        string  `json:"hex"`
	OnScreen   bool    `json:"onScreen"` // hex shows the color itself
}

// dataFiles writes the wall's data for people, programs and the site's scripts.
func (m *maker) dataFiles() error {
	rows := make([]Row, len(m.hung))
	for i, h := range m.hung {
		rows[i] = h.row()
	}
	var whole bytes.Buffer
	enc := json.NewEncoder(&whole)
	enc.SetIndent("", " ")
	if err := enc.Encode(map[string]any{"wall": m.name(), "cone": m.Wall.Cone, "white": "D50/2°", "tiles": rows}); err != nil {
		return err
	}
	if err := m.out.write("data/tiles.json", whole.Bytes()); err != nil {
		return err
	}
	var csv bytes.Buffer
	if err := tableOf(rows).Write(&csv); err != nil {
		return err
	}
	if err := m.out.write("data/tiles.csv", csv.Bytes()); err != nil {
		return err
	}
	script, err := m.columnsScript()
	if err != nil {
		return err
	}
	return m.out.write(columnsFile, script)
}

func (h *hung) row() Row {
	r := Row{
		Tile: int(h.Number), First: RowGlaze{h.First, h.first.Name}, Status: string(h.Status),
		Load: h.Load, Repeats: int(h.Repeats), Reason: h.SayReason(), Page: h.Number.PagePath(), Photo: h.photo.Src,
	}
	if !h.Single() {
		r.Second = &RowGlaze{h.Second, h.second.Name}
	}
	if h.read {
		r.Color = rowColor(h)
	}
	return r
}

func rowColor(h *hung) *RowColor {
	hex, shows := h.lab.Hex()
	return &RowColor{
		L: h.lab.L, A: h.lab.A, B: h.lab.B, Doubt: h.reading.Doubt, Class: string(h.reading.Class),
		Correction: correctionWords(h.reading), Zone: string(h.reading.Zone),
		Name: colorName(h.lab, 0), Hex: hex, OnScreen: shows,
	}
}

// tableOf lays rows out as a table that a spreadsheet opens.
func tableOf(rows []Row) *table.Table {
	t := table.New("data/tiles.csv", "tile", "first", "second", "status", "first name", "second name",
		"l", "a", "b", "doubt", "class", "color", "load", "repeats", "reason", "page")
	for _, r := range rows {
		cells := []string{strconv.Itoa(r.Tile), r.First.Code, "", r.Status, r.First.Name, ""}
		if r.Second != nil {
			cells[2], cells[5] = r.Second.Code, r.Second.Name
		}
		if c := r.Color; c != nil {
			cells = append(cells, t.Format(c.L, 2), t.Format(c.A, 2), t.Format(c.B, 2), t.Format(c.Doubt, 1), c.Class, c.Name)
		} else {
			cells = append(cells, "", "", "", "", "", "")
		}
		cells = append(cells, some(r.Load), some(r.Repeats), r.Reason, r.Page)
		t.Rows = append(t.Rows, table.Row{Cells: cells})
	}
	return t
}

// some is a number, or nothing for none.
func some(n int) string {
	if n == 0 {
		return ""
	}
	return tiles.Number(n).String()
}
