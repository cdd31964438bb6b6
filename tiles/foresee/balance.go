package foresee

// balance keeps any one bucket from being asked for more than its share.
type balance struct {
	first, second []int // n: how often each glaze was taken
	most          int   // how often it may be
	count         int
}

func newBalance(open []Cell, n, count int) *balance {
	firsts, seconds := map[int]bool{}, map[int]bool{}
	for _, c := range open {
		firsts[c.First], seconds[c.Second] = true, true
	}
	fewer := max(1, min(len(firsts), len(seconds)))
	return &balance{first: make([]int, n), second: make([]int, n), most: (count + fewer - 1) / fewer, count: count}
}

func (b *balance) allows(c Cell) bool {
	return b.first[c.First] < b.most && b.second[c.Second] < b.most
}

func (b *balance) take(c Cell) {
	b.first[c.First]++
	b.second[c.Second]++
}

// widen lets every bucket be asked for once more; false = there is no use.
func (b *balance) widen() bool {
	b.most++
	return b.most <= b.count
}
