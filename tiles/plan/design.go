package plan

// design is a balanced part of all ordered pairs of n glazes on a circle:
// each glaze meets k others as first and k as second.
//
// Its backbone are cyclic differences: the pairs (i, i+d mod n) of one step d
// hold every glaze once as first and once as second, so any k steps are
// balanced (a standard cyclic design; see e.g. Dean, Voss & Draguljić, Design
// and Analysis of Experiments, ch. 11, from memory). Where rules or tiles that
// are already numbered break the circle, pairs are exchanged until the counts
// are even again.
type design struct {
	n, k    int
	allowed [][]bool
	fixed   [][]bool // has its number: stays
	chosen  [][]bool
	out, in []int // how often each glaze is chosen as first, as second
}

func newDesign(n, k int) *design {
	d := &design{n: n, k: k, out: make([]int, n), in: make([]int, n)}
	for _, m := range []*[][]bool{&d.allowed, &d.fixed, &d.chosen} {
		*m = make([][]bool, n)
		for i := range *m {
			(*m)[i] = make([]bool, n)
		}
	}
	return d
}

func (d *design) add(i, j int) {
	d.chosen[i][j] = true
	d.out[i]++
	d.in[j]++
}

func (d *design) drop(i, j int) {
	d.chosen[i][j] = false
	d.out[i]--
	d.in[j]--
}

// free says that the pair may still be chosen.
func (d *design) free(i, j int) bool { return i != j && d.allowed[i][j] && !d.chosen[i][j] }

// steps are the differences in the order they are taken: 1, −1, 2, −2, …, so
// that a part that grows by two takes both orders of the same neighbors.
func (d *design) steps() []int {
	var s []int
	for step := 1; 2*step <= d.n; step++ {
		s = append(s, step)
		if 2*step < d.n {
			s = append(s, d.n-step)
		}
	}
	return s
}

// choose fills the part with single orders.
func (d *design) choose() {
	for _, step := range d.steps() {
		for i := range d.n {
			j := (i + step) % d.n
			if d.free(i, j) && d.out[i] < d.k && d.in[j] < d.k {
				d.add(i, j)
			}
		}
	}
	for i := range d.n {
		for d.out[i] < d.k && d.augment(i, make([]bool, d.n)) {
		}
	}
	d.overfill()
}

// augment gives glaze i one more second by exchanging pairs along a path that
// ends at a glaze with room as second (bipartite augmenting path).
func (d *design) augment(i int, seen []bool) bool {
	for j := range d.n {
		if d.free(i, j) && d.in[j] < d.k {
			d.add(i, j)
			return true
		}
	}
	for j := range d.n {
		if !d.free(i, j) || seen[j] {
			continue
		}
		seen[j] = true
		for other := range d.n {
			if !d.chosen[other][j] || d.fixed[other][j] {
				continue
			}
			d.drop(other, j)
			d.add(i, j)
			if d.augment(other, seen) {
				return true
			}
			d.drop(i, j)
			d.add(other, j)
		}
	}
	return false
}

// overfill gives glazes that still lack partners (new ones, whose partners
// have all they need) the partners with the fewest.
func (d *design) overfill() {
	for i := range d.n {
		for d.out[i] < d.k && d.addFewest(func(j int) (bool, int) { return d.free(i, j), d.in[j] }, func(j int) { d.add(i, j) }) {
		}
	}
	for j := range d.n {
		for d.in[j] < d.k && d.addFewest(func(i int) (bool, int) { return d.free(i, j), d.out[i] }, func(i int) { d.add(i, j) }) {
		}
	}
}

// addFewest adds the candidate with the least count; false where there is none.
func (d *design) addFewest(candidate func(int) (bool, int), add func(int)) bool {
	best, least := -1, 0
	for c := range d.n {
		if ok, count := candidate(c); ok && (best < 0 || count < least) {
			best, least = c, count
		}
	}
	if best < 0 {
		return false
	}
	add(best)
	return true
}

// chooseBoth fills the part with both orders of every chosen pair.
func (d *design) chooseBoth() {
	d.completeOrders()
	for _, step := range d.bothSteps() {
		for i := range d.n {
			j := (i + step) % d.n
			if d.freeBoth(i, j) && d.out[i] < d.k && d.out[j] < d.k {
				d.addBoth(i, j)
			}
		}
	}
	for a := range d.n {
		for d.out[a] < d.k && d.exchange(a) {
		}
	}
	for a := range d.n {
		for d.out[a] < d.k && d.addFewest(func(b int) (bool, int) { return d.freeBoth(a, b), d.out[b] }, func(b int) { d.addBoth(a, b) }) {
		}
	}
	d.chooseOneWay()
}

// chooseOneWay gives a glaze that goes under or over others only, and so has no
// pair with both orders, its partners in the order there is.
func (d *design) chooseOneWay() {
	oneWay := func(i, j int) bool { return d.free(i, j) && !d.allowed[j][i] }
	for i := range d.n {
		for d.out[i] < d.k && d.addFewest(func(j int) (bool, int) { return oneWay(i, j), d.in[j] }, func(j int) { d.add(i, j) }) {
		}
	}
	for j := range d.n {
		for d.in[j] < d.k && d.addFewest(func(i int) (bool, int) { return oneWay(i, j), d.out[i] }, func(i int) { d.add(i, j) }) {
		}
	}
}

// completeOrders adds the other order of every pair that has one already.
func (d *design) completeOrders() {
	for i := range d.n {
		for j := range d.n {
			if d.chosen[i][j] && d.free(j, i) {
				d.add(j, i)
			}
		}
	}
}

// bothSteps are the differences taken with their negatives; an odd count of
// partners begins half way round, where a step is its own negative.
func (d *design) bothSteps() []int {
	var s []int
	if d.k%2 == 1 && d.n%2 == 0 {
		s = append(s, d.n/2)
	}
	for step := 1; 2*step <= d.n; step++ {
		s = append(s, step)
	}
	return s
}

func (d *design) freeBoth(i, j int) bool { return d.free(i, j) && d.free(j, i) }

func (d *design) addBoth(i, j int) { d.add(i, j); d.add(j, i) }

// exchange gives glaze a one more partner: another glaze that lacks one, or
// both ends of a chosen pair that is taken apart for two glazes that lack one
// (or twice for a).
func (d *design) exchange(a int) bool {
	for b := range d.n {
		if d.out[b] < d.k && d.freeBoth(a, b) {
			d.addBoth(a, b)
			return true
		}
	}
	for b := range d.n {
		if d.out[b] >= d.k || (b == a && d.out[a] > d.k-2) {
			continue
		}
		if d.exchangeWith(a, b) {
			return true
		}
	}
	return false
}

func (d *design) exchangeWith(a, b int) bool {
	for c := range d.n {
		for e := range d.n {
			if c == e || !d.chosen[c][e] || d.fixed[c][e] || d.fixed[e][c] || !d.freeBoth(a, c) || !d.freeBoth(b, e) {
				continue
			}
			d.drop(c, e)
			d.drop(e, c)
			d.addBoth(a, c)
			d.addBoth(b, e)
			return true
		}
	}
	return false
}
