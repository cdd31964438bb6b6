package record

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// MeasuredFile is every reading, one row a photo and zone. It says what the tile
// carries a second time, so that a plan that was lost or replaced is noticed.
const MeasuredFile = "tiles/measured.csv"

// measured drops rows that are not written again: a reading can be remade.
// The two components of a mottled glaze stand in columns part1-l … part2-share.
var measured = schema[tiles.Reading]{
	file:    MeasuredFile,
	needed:  []string{"tile", "zone", "l", "a", "b"},
	key:     func(r tiles.Reading) string { return fmt.Sprint(r.Tile, "\n", r.Zone, "\n", r.Photo) },
	columns: measuredColumns(),
	order:   func(a, b tiles.Reading) int { return int(a.Tile - b.Tile) },
}

func measuredColumns() []column[tiles.Reading] {
	type R = tiles.Reading
	cols := []column[R]{
		number("tile", func(r *R) *tiles.Number { return &r.Tile }),
		{name: "zone", get: func(_ *table.Table, r R) string { return string(r.Zone) }, set: setZone},
		lab("l", func(r *R) *float64 { return &r.L }),
		lab("a", func(r *R) *float64 { return &r.A }),
		lab("b", func(r *R) *float64 { return &r.B }),
		textColumn("first", func(r *R) *string { return &r.Carried.First }),
		textColumn("second", func(r *R) *string { return &r.Carried.Second }),
		textColumn("photo", func(r *R) *string { return &r.Photo }),
		decimal("spread", 2, func(r *R) *float64 { return &r.Spread }),
		textColumn("correction", func(r *R) *string { return &r.Correction }),
		decimal("doubt", 2, func(r *R) *float64 { return &r.Doubt }),
		{name: "class", get: func(_ *table.Table, r R) string { return string(r.Class) }, set: setClass},
		textColumn("profile", func(r *R) *string { return &r.Profile }),
		decimal("kept", 4, func(r *R) *float64 { return &r.Kept }),
	}
	cols = append(cols, partColumns(0)...)
	cols = append(cols, partColumns(1)...)
	return append(cols,
		yes("soft", func(r *R) *bool { return &r.Soft }),
		textColumn("found", func(r *R) *string { return &r.Found }),
		textColumn("taken", func(r *R) *string { return &r.Taken }),
		textColumn("warning", func(r *R) *string { return &r.Warning }),
		textColumn("hash", func(r *R) *string { return &r.Hash }),
		textColumn("photo-bytes", func(r *R) *string { return &r.Bytes }),
		yes("photo-missing", func(r *R) *bool { return &r.Away }),
	)
}

// lab is a needed coordinate: 0 is written, an empty cell is refused.
func lab(name string, field func(*tiles.Reading) *float64) column[tiles.Reading] {
	return column[tiles.Reading]{
		name: name,
		get:  func(t *table.Table, r tiles.Reading) string { return t.Format(*field(&r), 3) },
		set: func(r *tiles.Reading, cell string) (err error) {
			*field(r), err = parseDecimal(cell)
			if x := *field(r); err == nil && (x < -200 || x > 200 || (name == "l" && (x < 0 || x > 100))) {
				return fmt.Errorf("%q is out of range: l is 0 to 100, a and b are -200 to 200", cell)
			}
			return err
		},
	}
}

func setZone(r *tiles.Reading, cell string) error {
	for _, z := range []tiles.Zone{tiles.ZoneFirst, tiles.ZoneOverlap, tiles.ZoneSecond, tiles.ZoneWhole} {
		if strings.EqualFold(cell, string(z)) {
			r.Zone = z
			return nil
		}
	}
	return fmt.Errorf("%q is not one of first, overlap, second, whole", cell)
}

func setClass(r *tiles.Reading, cell string) error {
	for _, c := range []tiles.Class{tiles.ClassChart, tiles.ClassControls, tiles.ClassGrey, tiles.ClassCamera} {
		if strings.EqualFold(cell, string(c)) {
			r.Class = c
			return nil
		}
	}
	return fmt.Errorf("%q is not one of chart, controls, grey, camera only", cell)
}

// partColumns are the four columns of one component; all empty where there is none.
func partColumns(i int) []column[tiles.Reading] {
	one := func(name string, field func(*tiles.Part) *float64) column[tiles.Reading] {
		return column[tiles.Reading]{
			name: fmt.Sprintf("part%d-%s", i+1, name),
			get: func(t *table.Table, r tiles.Reading) string {
				if i >= len(r.Parts) {
					return ""
				}
				return t.Format(*field(&r.Parts[i]), 3)
			},
			set: func(r *tiles.Reading, cell string) (err error) {
				for len(r.Parts) <= i {
					r.Parts = append(r.Parts, tiles.Part{})
				}
				*field(&r.Parts[i]), err = parseDecimal(cell)
				return err
			},
		}
	}
	return []column[tiles.Reading]{
		one("l", func(p *tiles.Part) *float64 { return &p.L }),
		one("a", func(p *tiles.Part) *float64 { return &p.A }),
		one("b", func(p *tiles.Part) *float64 { return &p.B }),
		one("share", func(p *tiles.Part) *float64 { return &p.Share }),
	}
}

// ReadReadings reads tiles/measured.csv of the wall; a wall without one has no
// readings yet. Errors are tiles.Problems.
func ReadReadings(dir folder.Folder) ([]tiles.Reading, error) { return measured.read(dir) }

// WriteReadings writes tiles/measured.csv of the wall. Rows keep their place
// and their added columns, new ones go among them by their tile's number where the
// rows are in that order; a reading that is not among rs is taken out.
func WriteReadings(dir folder.Folder, rs []tiles.Reading) error { return measured.write(dir, rs) }

// CheckReading says why a reading is none that the wall can keep: a color or a
// doubt out of range, which is a fault of its photo.
func CheckReading(r tiles.Reading) error {
	err := measured.check(r)
	if err == nil {
		return nil
	}
	return tiles.Problem{File: folder.Photos + "/" + r.Photo, What: fmt.Sprintf("tile %d cannot be read from it: %v", r.Tile, err),
		Do: "photograph the tile again, without glare and with nothing whiter than paper beside it"}
}
