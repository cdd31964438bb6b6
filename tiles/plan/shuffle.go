package plan

import "math/rand/v2"

// lot draws by the seed and the purpose only, so that a plan made again is the
// same plan.
func lot(seed, purpose uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, purpose)) }

// shuffle puts the items into an order drawn by lot.
func shuffle[T any](items []T, seed, purpose uint64) {
	lot(seed, purpose).Shuffle(len(items), func(i, j int) { items[i], items[j] = items[j], items[i] })
}
