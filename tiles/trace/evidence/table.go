package evidence

// Table is one two-by-two table of counts: pieces with and without something,
// and how many of each came out with a fault. 0 ≤ faults ≤ pieces.
type Table struct {
	WithFaults    int `json:"withFaults"`
	With          int `json:"with"`
	WithoutFaults int `json:"withoutFaults"`
	Without       int `json:"without"`
}

// Faults is how many pieces have the fault, with and without.
func (t Table) Faults() int { return t.WithFaults + t.WithoutFaults }

// Pieces is how many pieces there are, with and without.
func (t Table) Pieces() int { return t.With + t.Without }

// Tells says whether the table can speak at all: there are pieces on both
// sides, and both good and faulty ones.
func (t Table) Tells() bool {
	return t.With > 0 && t.Without > 0 && t.Faults() > 0 && t.Faults() < t.Pieces()
}

// Worse says whether the share of faults is higher with than without.
func (t Table) Worse() bool {
	return t.WithFaults*t.Without > t.WithoutFaults*t.With
}

// Interval is an estimate with the 95 % interval about it. High may be +Inf.
type Interval struct {
	Value, Low, High float64
}
