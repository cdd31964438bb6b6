package foresee

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
)

// kinRow is a row of testdata/kin.csv: a pair, its residue, and what
// scikit-learn predicts of it with and without it and its reverse.
type kinRow struct {
	pair              Pair
	residue, fit, out axes
}

// readKin reads what scikit-learn made of invented residues; testdata/kin.py
// made the table and makes it again.
func readKin(t *testing.T) (s Studio, rows []kinRow) {
	file, err := os.Open("testdata/kin.csv")
	require.NoError(t, err)
	defer file.Close()
	cells, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err)
		return v
	}
	three := func(row []string, at int) axes {
		return axes{number(row[at]), number(row[at+1]), number(row[at+2])}
	}
	s.Singles = make([]color.Lab, 12)
	for _, c := range cells[1:] {
		p := Pair{First: int(number(c[0])), Second: int(number(c[1]))}
		s.Singles[p.First], s.Singles[p.Second] = three(c, 2).lab(), three(c, 5).lab()
		rows = append(rows, kinRow{pair: p, residue: three(c, 8), fit: three(c, 11), out: three(c, 14)})
		s.Pairs = append(s.Pairs, p)
	}
	return s, rows
}

// The process and its leave-outs in closed form, against scikit-learn 1.2.1
// fitted to all pairs, and anew to all but each pair and its reverse.
func TestTheResidueIsThatOfScikitLearn(t *testing.T) {
	s, rows := readKin(t)
	// A rule that always says no color leaves the residue to be the color.
	nothing := func(int, int, float64) color.Lab { return color.Lab{} }
	y := make([]axes, len(rows))
	for k, r := range rows {
		y[k] = r.residue
		s.Pairs[k].Lab = r.residue.lab()
	}
	k, ok := newKin(s)
	require.True(t, ok)
	learnt := newResidue(k, y)
	outs := leaveOut(fitCover(s, nothing), k, learnt, y, newIndex(s))
	both := 0
	for i, r := range rows {
		near := make([]float64, len(rows))
		for j, q := range s.Pairs {
			near[j] = s.kinship(r.pair, q)
		}
		fit := learnt.of(near)
		for a := range 3 {
			assert.InDelta(t, r.fit[a], fit[a], 1e-6, "pair %d fitted, axis %d", i, a)
			assert.InDelta(t, r.out[a], axesOf(outs[i].residue)[a], 1e-6, "pair %d left out, axis %d", i, a)
		}
		both += len(newIndex(s).block(s, i)) - 1
	}
	assert.Greater(t, both, 20, "pairs left out with their reverse")
}
