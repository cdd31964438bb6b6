package correct

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// lightRidge keeps a term of the light's shape at nothing where the spots cannot
// tell it, as when they all lie on a line.
const lightRidge = 1e-4

// lightTerms are what a light is fitted by: the means of all terms, and the terms of
// each spot less them, a row a spot, a trace of ridge below.
func lightTerms(used int, spots []Spot, edges []*edge) (rows *mat.Dense, mean []float64) {
	all := used + len(edges)
	sheets := severalSheets(spots)
	if sheets {
		all++
	}
	n := len(spots)
	rows, mean = mat.NewDense(n+used, all, nil), make([]float64, all)
	for row, s := range spots {
		shape := shapeAt(s.X, s.Y)
		terms := append(make([]float64, 0, all), shape[:used]...)
		for _, e := range edges {
			terms = append(terms, e.inside(s.X, s.Y))
		}
		if sheets {
			terms = append(terms, float64(s.Sheet))
		}
		rows.SetRow(row, terms)
		for i, v := range terms {
			mean[i] += v / float64(n)
		}
	}
	for row := range n {
		for i, m := range mean {
			rows.Set(row, i, rows.At(row, i)-m)
		}
	}
	for i := range used {
		rows.Set(n+i, i, math.Sqrt(lightRidge*float64(n)))
	}
	return rows, mean
}

func severalSheets(spots []Spot) bool {
	for _, s := range spots {
		if s.Sheet != spots[0].Sheet {
			return true
		}
	}
	return false
}

// lightOf fits the first terms of the shape to the spots, all three channels
// at once. Where edges are given, the depths of the shadows beyond them are fitted
// with them; where the spots are of two sheets, what the second gives back over the first.
func lightOf(used int, spots []Spot, edges ...*edge) (l Light) {
	rows, mean := lightTerms(used, spots, edges)
	height, all := rows.Dims()
	n := len(spots)
	b := mat.NewDense(height, 3, nil)
	var level RGB
	for _, s := range spots {
		shape := shapeAt(s.X, s.Y)
		for i := range shape {
			l.mean[i] += shape[i] / float64(n)
		}
		for k, v := range s.RGB {
			level[k] += math.Log(v) / float64(n)
		}
	}
	for row, s := range spots {
		for k, v := range s.RGB {
			b.Set(row, k, math.Log(v)-level[k])
		}
	}
	var x mat.Dense
	if x.Solve(rows, b) != nil {
		return Light{}
	}
	for k := range 3 {
		for i := range used {
			l.shape[k][i] = x.At(i, k)
		}
		for i, e := range edges {
			e.mean, e.log[k] = mean[used+i], x.At(used+i, k)
		}
		if severalSheets(spots) {
			l.other[k] = x.At(all-1, k)
		}
	}
	l.edges = edges
	return l
}

// leftOut is how far, as a logarithm, each spot's green lies off a fit to all
// others: by its leverage h, what the fit to all leaves over is 1 − h of that
// (Cook and Weisberg, Residuals and Influence in Regression, 1982, section 2.2).
func leftOut(spots []Spot, used int) []float64 {
	rows, _ := lightTerms(used, spots, nil)
	_, all := rows.Dims()
	n := len(spots)
	mean := 0.0
	for _, s := range spots {
		mean += math.Log(s.RGB[1]) / float64(n)
	}
	var qr mat.QR
	qr.Factorize(rows)
	var q mat.Dense
	qr.QTo(&q)
	out := make([]float64, n)
	for i, s := range spots {
		out[i] = math.Log(s.RGB[1]) - mean
	}
	along := make([]float64, all)
	for j := range along {
		for i := range n {
			along[j] += q.At(i, j) * out[i]
		}
	}
	for i := range out {
		leverage := 1 / float64(n) // of the mean
		for j, a := range along {
			out[i] -= q.At(i, j) * a
			leverage += q.At(i, j) * q.At(i, j)
		}
		out[i] /= max(1-leverage, 1e-6)
	}
	return out
}

// validationError is the cross-validated error: each spot is left out in turn
// and held against a fit to the others, the mean square of what is left in the
// green's logarithm.
func validationError(spots []Spot, used int) float64 {
	sum := 0.0
	for _, v := range leftOut(spots, used) {
		sum += v * v
	}
	return sum / float64(len(spots))
}

// even is what a spot would show on sheet 0, were the light even.
func (l Light) even(s Spot) RGB {
	out := l.Level(s.X, s.Y, s.RGB)
	for k := range out {
		out[k] /= math.Exp(l.other[k] * float64(s.Sheet))
	}
	return out
}
