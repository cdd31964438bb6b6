package site

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

func markedGlaze(caution string, traits ...tiles.Trait) tiles.Glaze {
	g := tiles.Glaze{Code: "A", Name: "A", Traits: traits}
	if caution != "" {
		g.Cautions = []string{caution}
	}
	return g
}

func TestMarksSayWhatTheHandShouldKnow(t *testing.T) {
	plain := markedGlaze("")
	m := &maker{}
	for _, c := range []struct {
		first, second tiles.Glaze
		want          []string
	}{
		{plain, plain, nil},
		{plain, markedGlaze("", tiles.NotFood), []string{"never for food"}},
		{markedGlaze("The cracks hold stains: not for food"), plain, []string{"never for food"}},
		{markedGlaze("Never on surfaces that touch food."), plain, []string{"never for food"}},
		{markedGlaze("not tested for food"), plain, nil},
		{markedGlaze("Food safe as a liner, tested 2024"), plain, nil},
		{markedGlaze("Runs: waste slab below"), plain, []string{"runs"}},
		{markedGlaze("Never runs"), plain, nil},
		{markedGlaze("Does not run"), plain, nil},
		{markedGlaze("", tiles.Runny), markedGlaze("", tiles.Crawls, tiles.Soluble), []string{"gloves", "runs", "crawls"}},
		{markedGlaze("", tiles.Slick), plain, []string{"may slide off"}},
		{plain, markedGlaze("", tiles.Slick), nil},
	} {
		h := &hung{Tile: tiles.Tile{Pair: tiles.Pair{First: "A", Second: "B"}}, first: c.first, second: c.second}
		h.marks = m.markBits(h)
		assert.Equal(t, c.want, m.shortMarks(h), "%v %v", c.first, c.second)
	}
	h := &hung{Tile: tiles.Tile{Pair: tiles.Pair{First: "A"}}, first: plain, second: tiles.Glaze{}}
	assert.NotZero(t, m.markBits(h), "said at length, everything is not tested for food")
}
