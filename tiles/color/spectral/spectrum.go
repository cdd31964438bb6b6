package spectral

import "slices"

// Bands is how many values a spectrum holds: every 5 nm from 380 to 780 nm.
const Bands = 81

// Spectrum is light, a reflectance or a sensitivity at each band.
type Spectrum [Bands]float64

// White is a perfect diffuser.
var White = func() *Spectrum {
	var s Spectrum
	for i := range s {
		s[i] = 1
	}
	return &s
}()

// Mixed is a of the one and 1 − a of the other.
func Mixed(p, q *Spectrum, a float64) *Spectrum {
	var out Spectrum
	for i := range out {
		out[i] = a*p[i] + (1-a)*q[i]
	}
	return &out
}

// Table is spectra by name, and the order of the names.
type Table struct {
	Names []string
	Of    map[string]*Spectrum
}

// join adds the spectra of another table.
func (t *Table) join(more Table) {
	t.Names = append(t.Names, more.Names...)
	for name, s := range more.Of {
		t.Of[name] = s
	}
}

// resample takes a spectrum to every 5 nm: straight lines between its points,
// its end values held beyond them.
func resample(nm, values []float64) *Spectrum {
	var out Spectrum
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
