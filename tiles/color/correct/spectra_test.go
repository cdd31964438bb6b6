package correct

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

	"github.com/twodip/twodip/tiles/color"
)

// A spectrum holds a value every 5 nm from 380 to 780 nm.
const bands = 81

type spectrum [bands]float64

// spectra is a table of them by name, and the order of the names.
type spectra struct {
	names []string
	of    map[string]*spectrum
}

// published is a file of ../shared/reference beside the checkout: published
// spectra, read where they are.
func published(t testing.TB, path string) string {
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

// down reads a table with a wavelength in each row and a spectrum a column.
func down(t testing.TB, path string) spectra {
	rows := readCSV(t, path)
	nm := make([]float64, 0, len(rows))
	values := make([][]float64, len(rows[0])-1)
	for _, r := range rows[1:] {
		nm = append(nm, number(t, r[0]))
		for i := range values {
			values[i] = append(values[i], number(t, r[i+1]))
		}
	}
	out := spectra{names: rows[0][1:], of: map[string]*spectrum{}}
	for i, name := range out.names {
		out.of[name] = resample(nm, values[i])
	}
	return out
}

// across reads a table with a wavelength in each column and a spectrum a row.
func across(t testing.TB, path string) spectra {
	rows := readCSV(t, path)
	var nm []float64
	for _, cell := range rows[0][1:] {
		nm = append(nm, number(t, cell))
	}
	out := spectra{of: map[string]*spectrum{}}
	for _, r := range rows[1:] {
		var values []float64
		for _, cell := range r[1:] {
			values = append(values, number(t, cell))
		}
		out.names = append(out.names, r[0])
		out.of[r[0]] = resample(nm, values)
	}
	return out
}

// nested reads the JSON form: wavelength → a value for each spectrum.
func nested(t testing.TB, path string) []*spectrum {
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
		at := number(t, key)
		nm = append(nm, at)
		byNM[at] = values
	}
	slices.Sort(nm)
	out := make([]*spectrum, len(byNM[nm[0]]))
	for i := range out {
		values := make([]float64, len(nm))
		for k, at := range nm {
			values[k] = byNM[at][i]
		}
		out[i] = resample(nm, values)
	}
	return out
}

// resample takes a spectrum to every 5 nm: straight lines between its points,
// its end values held beyond them.
func resample(nm, values []float64) *spectrum {
	var out spectrum
	for i := range out {
		at := 380 + 5*float64(i)
		k, _ := slices.BinarySearch(nm, at)
		switch {
		case k == 0:
			out[i] = values[0]
		case k == len(nm):
			out[i] = values[k-1]
		default:
			share := (at - nm[k-1]) / (nm[k] - nm[k-1])
			out[i] = values[k-1] + share*(values[k]-values[k-1])
		}
	}
	return &out
}

func readCSV(t testing.TB, path string) [][]string {
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows
}

func number(t testing.TB, s string) float64 {
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	require.NoError(t, err)
	return v
}

// observer sums a reflectance under a light into XYZ, white being 1.
type observer struct{ x, y, z *spectrum }

func readObserver(t testing.TB) observer {
	cmf := down(t, published(t, "cie/cie1931_2deg_5nm.csv"))
	return observer{cmf.of["xbar"], cmf.of["ybar"], cmf.of["zbar"]}
}

// see is the true color of a surface: CIELAB under the light, with the white
// summed the same way, as CIE 15:2004, 7.1 and 8.2.1 have it.
func (o observer) see(light, surface *spectrum) color.Lab {
	var c, white color.XYZ
	for i := range bands {
		w := light[i]
		c.X += w * surface[i] * o.x[i]
		c.Y += w * surface[i] * o.y[i]
		c.Z += w * surface[i] * o.z[i]
		white.X += w * o.x[i]
		white.Y += w * o.y[i]
		white.Z += w * o.z[i]
	}
	return color.XYZ{
		X: c.X / white.X * color.D50.X,
		Y: c.Y / white.Y,
		Z: c.Z / white.Z * color.D50.Z,
	}.Lab()
}
