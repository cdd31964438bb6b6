package foresee

import (
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles/color"
)

// Somebody wants the color of an unfired pair, drawn at random, and fires six
// tiles: is one of them within ΔE00 4? By guesses, by the second's single, and
// without a thought.
func TestAWantedColorIsMetSoon(t *testing.T) {
	var tried, byGuess, bySecond, byChance int
	for seed := range seeds() {
		w := usual.make(100000 + seed)
		s, _ := w.part(4)
		f, cells := Learn(s), open(s)
		truth := func(c Cell) color.Lab { return w.pairs[c.First*w.n()+c.Second] }
		for range 10 {
			wanted := truth(cells[w.random.IntN(len(cells))])
			met := func(six []Cell) int {
				if slices.ContainsFunc(six, func(c Cell) bool { return color.DE00(wanted, w.fire(truth(c))) <= 4 }) {
					return 1
				}
				return 0
			}
			tried++
			var guessed []Cell
			for _, g := range f.Toward(wanted, cells, 6) {
				guessed = append(guessed, g.Cell)
			}
			shuffled := slices.Clone(cells)
			w.random.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
			byChance += met(shuffled[:6])
			slices.SortStableFunc(shuffled, func(a, b Cell) int {
				return cmp.Compare(color.DE00(wanted, s.Singles[a.Second]), color.DE00(wanted, s.Singles[b.Second]))
			})
			byGuess, bySecond = byGuess+met(guessed), bySecond+met(shuffled[:6])
		}
	}
	share := func(n int) float64 { return float64(n) / float64(tried) }
	t.Logf("met within ΔE00 4 after six tiles, %d wishes: guesses %.0f %%, the second's single %.0f %%, by chance %.0f %%", tried, 100*share(byGuess), 100*share(bySecond), 100*share(byChance))
	assert.GreaterOrEqual(t, share(byGuess), 0.75)
	assert.Greater(t, byGuess, bySecond)
}
