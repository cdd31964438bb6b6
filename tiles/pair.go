package tiles

// Pair is what a tile carries, by glaze code and in the order of dipping:
// First goes on the bisque, Second goes over it. Second is empty on a single
// and equal to First on a double.
type Pair struct {
	First, Second string
}

// Single says that the pair is one coat of one glaze.
func (p Pair) Single() bool { return p.Second == "" }

// Double says that the pair is the same glaze twice.
func (p Pair) Double() bool { return p.Second != "" && SameCode(p.First, p.Second) }

// Reverse is the same two glazes in the other order; a single is its own.
func (p Pair) Reverse() Pair {
	if p.Single() {
		return p
	}
	return Pair{First: p.Second, Second: p.First}
}

// Same says whether two pairs name the same glazes in the same order,
// whatever the case of the codes.
func (p Pair) Same(q Pair) bool {
	return SameCode(p.First, q.First) && SameCode(p.Second, q.Second)
}

// Has says whether the glaze is in the pair, first or second.
func (p Pair) Has(code string) bool {
	return SameCode(p.First, code) || (p.Second != "" && SameCode(p.Second, code))
}

// String says the pair by code, always with the arrow: "1st A → 2nd B",
// "1st A alone", "1st A → 2nd A again".
func (p Pair) String() string {
	first, second := Apart(p.First), Apart(p.Second)
	switch {
	case p.Single():
		return "1st " + first + " alone"
	case p.Double():
		return "1st " + first + " → 2nd " + second + " again"
	}
	return "1st " + first + " → 2nd " + second
}
