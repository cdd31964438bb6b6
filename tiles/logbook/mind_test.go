package logbook

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

// TestWhatToMindWithAPair reads the sentences at the door (common practice, no source).
func TestWhatToMindWithAPair(t *testing.T) {
	w := tiles.Wall{Glazes: []tiles.Glaze{
		{Code: "R", Name: "Runner", Traits: []tiles.Trait{tiles.Runny}}, {Code: "C", Name: "Crawler", Traits: []tiles.Trait{tiles.Crawls}},
		{Code: "D", Name: "Drawer", Traits: []tiles.Trait{tiles.Crawls, tiles.NotFood}}, {Code: "Q", Name: "Quiet"},
	}}
	pair := func(first, second string) tiles.Pair { return tiles.Pair{First: first, Second: second} }
	assert.Empty(t, Mind(w, pair("Q", ""), "", ""))
	assert.Contains(t, Mind(w, pair("R", ""), "", ""), "Runner runs: wipe 25 mm up from the foot.")
	assert.Contains(t, Mind(w, pair("C", "D"), "", ""), "Both crawl: with care, thin, and the 1st touch-dry.")
	assert.Contains(t, Mind(w, pair("D", ""), "", ""), "Drawer is not for food or drink.")
	assert.NotContains(t, Mind(w, pair("C", "Q"), "", ""), "Crawler crawls over a coat: thin, and the 1st touch-dry.")
	assert.Equal(t, "This studio does not fire this pair: it stuck. Ask before you glaze.", Mind(w, pair("R", "Q"), "it stuck", "")[0])
}
