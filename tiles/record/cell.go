package record

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// textColumn is a column of plain words.
func textColumn[T any](name string, field func(*T) *string) column[T] {
	return column[T]{
		name: name,
		get:  func(_ *table.Table, one T) string { return *field(&one) },
		set:  func(one *T, cell string) error { *field(one) = cell; return nil },
	}
}

// decimal is a column of numbers; 0 is an empty cell.
func decimal[T any](name string, decimals int, field func(*T) *float64) column[T] {
	return column[T]{
		name: name,
		get: func(t *table.Table, one T) string {
			if x := *field(&one); x != 0 {
				return t.Format(x, decimals)
			}
			return ""
		},
		set: func(one *T, cell string) (err error) {
			*field(one), err = parseDecimal(cell)
			return err
		},
	}
}

func parseDecimal(cell string) (float64, error) {
	x, err := table.Number(cell)
	if err != nil {
		return 0, fmt.Errorf("%q is not a number", cell)
	}
	return x, nil
}

// whole is a column of whole numbers, 0 and up; 0 is an empty cell.
func whole[T any](name string, field func(*T) *int) column[T] {
	return column[T]{
		name: name,
		get: func(_ *table.Table, one T) string {
			if n := *field(&one); n != 0 {
				return strconv.Itoa(n)
			}
			return ""
		},
		set: func(one *T, cell string) error {
			n, err := strconv.Atoi(cell)
			if err != nil || n < 0 || n > 1_000_000 {
				return fmt.Errorf("%q is not a whole number: write one, like 3", cell)
			}
			*field(one) = n
			return nil
		},
	}
}

// number is a column of tile numbers; 0 is an empty cell.
func number[T any](name string, field func(*T) *tiles.Number) column[T] {
	return column[T]{
		name: name,
		get: func(_ *table.Table, one T) string {
			if n := *field(&one); n != 0 {
				return n.String()
			}
			return ""
		},
		set: func(one *T, cell string) (err error) {
			*field(one), err = tiles.ParseNumber(cell)
			return err
		},
	}
}

// yes is a column that says "yes" or nothing.
func yes[T any](name string, field func(*T) *bool) column[T] {
	return column[T]{
		name: name,
		get: func(_ *table.Table, one T) string {
			if *field(&one) {
				return "yes"
			}
			return ""
		},
		set: func(one *T, cell string) error {
			switch strings.ToLower(cell) {
			case "yes", "y", "true", "x", "1":
				*field(one) = true
			case "no", "n", "false", "0", "":
				*field(one) = false
			default:
				return fmt.Errorf("%q is neither yes nor no", cell)
			}
			return nil
		},
	}
}
