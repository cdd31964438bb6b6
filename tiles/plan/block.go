package plan

import "math/rand/v2"

// block counts how often each glaze is first and second in one load (or on one
// shelf), and how many tiles and waste slabs it has.
type block struct {
	first, over []int
	slabs       int
	size        int
	units       []*unit
}

func newBlock(glazes int) *block {
	return &block{first: make([]int, glazes), over: make([]int, glazes)}
}

// count adds the unit to the block's counts, or takes it away (by −1).
func (b *block) count(u *unit, by int) {
	for i := range u.tiles {
		b.first[u.first[i]] += by
		if u.over[i] >= 0 {
			b.over[u.over[i]] += by
		}
	}
	if u.runny {
		b.slabs += by * u.size()
	}
	b.size += by * u.size()
}

// price is how much the sum of squared counts grows when the unit joins: least
// where its glazes are rarest. Even counts have the least sum of squares.
func (b *block) price(u *unit) int {
	const size, slab = 4, 8 // even loads and even slabs matter more than any one glaze
	sum := size * u.size() * (2*b.size + u.size())
	for i := range u.tiles {
		sum += 2*b.first[u.first[i]] + 1
		if u.over[i] >= 0 {
			sum += 2*b.over[u.over[i]] + 1
		}
	}
	if u.runny {
		sum += slab * u.size() * (2*b.slabs + u.size())
	}
	return sum
}

// spread puts the units into so many blocks: each where its glazes are rarest,
// early units into the first blocks.
func spread(units []*unit, glazes, blocks int) []*block {
	bs := make([]*block, blocks)
	for i := range bs {
		bs[i] = newBlock(glazes)
	}
	first := earlyBlocks(units, blocks)
	for _, early := range []bool{true, false} {
		for _, u := range units {
			if u.early != early {
				continue
			}
			among := bs
			if early {
				among = bs[:first]
			}
			b := among[cheapest(among, u)]
			b.count(u, 1)
			b.units = append(b.units, u)
		}
	}
	return bs
}

// earlyBlocks is how many blocks the early units fill.
func earlyBlocks(units []*unit, blocks int) int {
	all, early := 0, 0
	for _, u := range units {
		all += u.size()
		if u.early {
			early += u.size()
		}
	}
	if all == 0 {
		return blocks
	}
	return max(1, (early*blocks+all-1)/all)
}

func cheapest(bs []*block, u *unit) int {
	best, least := 0, bs[0].price(u)
	for i, b := range bs[1:] {
		if price := b.price(u); price < least {
			best, least = i+1, price
		}
	}
	return best
}

// even swaps units between blocks: pairs of them drawn by lot, exchanged
// wherever that leaves the counts as even or more so. Swaps that change nothing
// let the search walk on where every single step would make it worse.
func even(units []*unit, bs []*block, random *rand.Rand) []*block {
	const (
		draws = 400       // for each unit; more gained nothing on walls of 3 to 60 glazes
		most  = 1_000_000 // bounds the time for walls of 100 glazes
	)
	in := make(map[*unit]int, len(units))
	for i, b := range bs {
		for _, u := range b.units {
			in[u] = i
		}
	}
	for range min(draws*len(units), most) {
		a, b := units[random.IntN(len(units))], units[random.IntN(len(units))]
		if in[a] != in[b] && a.early == b.early {
			swap(a, b, in, bs)
		}
	}
	return regroup(units, in, bs)
}

// regroup gives every block the units that are in it now.
func regroup(units []*unit, in map[*unit]int, bs []*block) []*block {
	for _, b := range bs {
		b.units = nil
	}
	for _, u := range units {
		bs[in[u]].units = append(bs[in[u]].units, u)
	}
	return bs
}

// swap changes two units' blocks unless the sum of squares grows.
func swap(a, b *unit, in map[*unit]int, bs []*block) {
	from, to := bs[in[a]], bs[in[b]]
	from.count(a, -1)
	to.count(b, -1)
	if from.price(b)+to.price(a) <= from.price(a)+to.price(b) {
		in[a], in[b] = in[b], in[a]
		a, b = b, a
	}
	from.count(a, 1)
	to.count(b, 1)
}
