package spectral

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Published is a file of ../shared/reference beside the checkout: published
// spectra, read where they are.
func Published(t testing.TB, path string) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for dir != filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	full := filepath.Join(dir, "../shared/reference", path)
	if _, err := os.Stat(full); err != nil {
		t.Skip("the shared reference files are not beside this checkout")
	}
	return full
}

// Down reads a table with a wavelength in each row and a spectrum a column.
func Down(t testing.TB, path string) Table {
	return downTable(t, ReadCSV(t, path))
}

func downTable(t testing.TB, rows [][]string) Table {
	nm := make([]float64, 0, len(rows))
	values := make([][]float64, len(rows[0])-1)
	for _, r := range rows[1:] {
		nm = append(nm, Number(t, r[0]))
		for i := range values {
			values[i] = append(values[i], Number(t, r[i+1]))
		}
	}
	out := Table{Names: rows[0][1:], Of: map[string]*Spectrum{}}
	for i, name := range out.Names {
		out.Of[name] = resample(nm, values[i])
	}
	return out
}

// Across reads a table with a wavelength in each column and a spectrum a row.
func Across(t testing.TB, path string) Table {
	rows := ReadCSV(t, path)
	var nm []float64
	for _, cell := range rows[0][1:] {
		nm = append(nm, Number(t, cell))
	}
	out := Table{Of: map[string]*Spectrum{}}
	for _, r := range rows[1:] {
		var values []float64
		for _, cell := range r[1:] {
			values = append(values, Number(t, cell))
		}
		out.Names = append(out.Names, r[0])
		out.Of[r[0]] = resample(nm, values)
	}
	return out
}

// Nested reads the JSON form: wavelength → a value for each spectrum.
func Nested(t testing.TB, path string) []*Spectrum {
	var file struct {
		Data struct {
			Data struct{ Main map[string][]float64 }
		} `json:"spectral_data"`
	}
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &file))
	var nm []float64
	byNM := map[float64][]float64{}
	for key, values := range file.Data.Data.Main {
		at := Number(t, key)
		nm = append(nm, at)
		byNM[at] = values
	}
	slices.Sort(nm)
	out := make([]*Spectrum, len(byNM[nm[0]]))
	for i := range out {
		values := make([]float64, len(nm))
		for k, at := range nm {
			values[k] = byNM[at][i]
		}
		out[i] = resample(nm, values)
	}
	return out
}

// ReadCSV reads a whole table.
func ReadCSV(t testing.TB, path string) [][]string {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows
}

// Number reads a cell; an empty one is 0.
func Number(t testing.TB, s string) float64 {
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	require.NoError(t, err)
	return v
}
