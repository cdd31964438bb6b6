package mark

import (
	"math"
)

// What may be fitted, in this order in the list of parameters.
const (
	pTurn  = 0 // three
	pShift = 3 // three, in units of the distance
	pFocal = 6 // logarithm
	pK1    = 7
	pK2    = 8
	pAxis  = 9 // two, in focal lengths
	pGrow  = 11
	pBow   = 12 // seven, in half boards
	pCount = 19
)

// prior is how far each parameter is expected to be from what is usual: the
// rotation and place are free, the rest are held like a measurement of that
// uncertainty.
func (l lens) prior(bowed bool) [pCount]float64 {
	p := [pCount]float64{pFocal: l.spread, pK1: 0.06, pK2: 0.02, pAxis: 0.006, pAxis + 1: 0.006, pGrow: 0.02}
	for i := pBow; i < pCount; i++ {
		p[i] = -1 // held
		if bowed {
			p[i] = 0.02
		}
	}
	if bowed {
		// Seen from straight before it, a bow looks like another focal length.
		p[pFocal], p[pK1] = min(l.spread, 0.025), 0.03
	}
	return p
}

// off is how far the view's parameters are from what is usual.
func (l lens) deviation(v *View) [pCount]float64 {
	d := v.axis.Minus(l.center).Times(1 / v.focal)
	at := [pCount]float64{pFocal: math.Log(v.focal / l.focal), pK1: v.k1, pK2: v.k2, pAxis: d.X, pAxis + 1: d.Y, pGrow: v.grow}
	for i, k := range v.bow.k {
		if v.bow.half > 0 {
			at[pBow+i] = k / v.bow.half
		}
	}
	return at
}
