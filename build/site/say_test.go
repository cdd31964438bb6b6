package site

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

func TestADistanceIsSaidWithinItsDoubt(t *testing.T) {
	for _, c := range []struct {
		d, doubt float64
		want     string
	}{
		{0.4, 0, "no difference to see"},
		{1, 0.9, "a slight difference"},
		{3.9, 2, "a noticeable difference"},
		{4, 2, "a different color"},
		{25, 12, "far apart"},
		{1.9, 2, same},
		{3.9, 12, same},
		{4, 12, unsure},
		{11.4, 12, unsure},
	} {
		assert.Equal(t, c.want, distanceWords(c.d, c.doubt), "%.1f ± %.1f", c.d, c.doubt)
	}
}

func TestTheScriptSaysDistancesAsThePagesDo(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "compare.html"))
	for _, d := range []float64{0, 0.5, 1, 1.9, 2, 3.99, 4, 9.9, 10, 40} {
		for _, doubt := range []float64{0, 2, 7, 12} {
			got := eval[string](b, fmt.Sprintf("twodip.columns().far(%v, %v)", d, doubt))
			assert.Equal(t, fmt.Sprintf("ΔE00 %.1f, %s", d, distanceWords(d, doubt)), got)
		}
	}
	for _, doubt := range []float64{0, 0.4, 1, 1.04, 1.4, 2, 12.6} {
		assert.Equal(t, doubtWords(doubt), eval[string](b, fmt.Sprintf("twodip.columns().doubtWords(%v)", doubt)))
	}
}

func TestNothingPromises(t *testing.T) {
	in := inventedInput(t, 4)
	in.Pages = builtPages(t)
	// What a student may type is understood there, not said.
	text := regexp.MustCompile(`words\\*":\[[^\]]*\]`).ReplaceAllString(everyFile(t, build(t, in)), "")
	for _, promise := range []string{"will look like", "food safe", "food-safe", "foodsafe"} {
		assert.NotContains(t, text, promise)
	}
}

func TestAPlaceSaysWhyItIsEmpty(t *testing.T) {
	for _, c := range []struct {
		h    hung
		want string
	}{
		{hung{Tile: tiles.Tile{Status: tiles.Planned, Load: 3}}, "planned, load 3"},
		{hung{Tile: tiles.Tile{Status: tiles.Planned}}, "planned"},
		{hung{Tile: tiles.Tile{Status: tiles.Skipped, Reason: "both run"}}, "skipped: both run"},
		{hung{Tile: tiles.Tile{Status: tiles.Retired, Reason: "broken"}}, "retired: broken"},
		{hung{Tile: tiles.Tile{Status: tiles.Fired}}, "fired, no photo yet"},
		{hung{Tile: tiles.Tile{Status: tiles.Planned}, read: true}, "fired and measured, no photo here"},
	} {
		assert.Equal(t, c.want, c.h.waiting())
	}
}

// A place without a photo says that its tile is due, and why.
func TestAPlaceWithoutAPhotoSaysThatItIsDue(t *testing.T) {
	h := &hung{Tile: tiles.Tile{Number: 7, Pair: tiles.Pair{First: "A"}, Status: tiles.Fired}, due: "batch A 2 is new"}
	cell := (&maker{}).cell(h, "A", wallColumn{code: "A"})
	assert.Equal(t, "bare", cell.Class)
	assert.Equal(t, "due again: batch A 2 is new", cell.Says)
}

func TestAWideWallGoesAcrossThePageOrNotAtAll(t *testing.T) {
	assert.Equal(t, []string{"", " wide", " wide", " widest"}, []string{paperOf(12), paperOf(13), paperOf(24), paperOf(25)})
}

func TestACautionIsSaidOnce(t *testing.T) {
	g := tiles.Glaze{Name: "Fen Glass", Traits: []tiles.Trait{tiles.NotFood, tiles.Runny}, Cautions: []string{"The cracks hold stains: not for food"}}
	assert.Equal(t, []string{"Fen Glass: The cracks hold stains: not for food. Runs: keep it off the foot, and put a waste slab under the piece."}, glazeCautions(g))
	m := maker{Input: Input{Caution: func(tiles.Pair) string { return "both run; both run" }}}
	h := &hung{Tile: tiles.Tile{Pair: tiles.Pair{First: "A", Second: "B"}}, first: g, second: tiles.Glaze{Name: "Oat"}}
	assert.Equal(t, []string{glazeCautions(g)[0], "Both run.", "Where both lie it is a third glaze: not tested for food."}, m.cautions(h))
	single := &hung{Tile: tiles.Tile{Pair: tiles.Pair{First: "A"}}, first: tiles.Glaze{Name: "Oat"}}
	assert.Empty(t, (&maker{}).cautions(single), "one coat of a glaze with nothing against it")
}

func TestTheDrawingPutsTheFirstBelow(t *testing.T) {
	o := (&maker{}).drawOrder("x", false, "#111111", "#222222", "#333333")
	assert.Equal(t, []Band{{"second", 1, 1, 24, 12, "#111111"}, {"overlap", 1, 13, 24, 12, "#222222"}, {"first", 1, 25, 24, 12, "#333333"}}, o.Bands)
	assert.Greater(t, o.Words[0].Y, o.Words[1].Y, "1st stands lower than 2nd")
	assert.Equal(t, "1st", o.Words[0].Text)
	staysOnTheTile(t, o, 1, 25)
}

// Dipped from the sides the tile shows the 1st at the left.
func TestTheDrawingPutsTheFirstLeftInLanes(t *testing.T) {
	m := &maker{}
	m.Wall.Settings.Tile.Layout = tiles.LayoutSides
	o := m.drawOrder("x", false, "#111111", "#222222", "#333333")
	assert.Equal(t, []Band{{"first", 18, 1, 8, 36, "#333333"}, {"overlap", 26, 1, 8, 36, "#222222"}, {"second", 34, 1, 8, 36, "#111111"}}, o.Bands)
	assert.Less(t, o.Words[0].X, o.Words[1].X, "1st stands left of 2nd")
	assert.Equal(t, "1st", o.Words[0].Text)
	staysOnTheTile(t, o, 18, 42)
	assert.Contains(t, m.sample().Label, "1st at the left")
	assert.Len(t, m.drawOrder("x", true, "", "", "#333333").Bands, 1)
}

// staysOnTheTile holds every line to the drawn tile.
func staysOnTheTile(t *testing.T, o Order, left, right int) {
	t.Helper()
	for _, d := range o.Hatch {
		var x1, y1, x2, y2 int
		for rest := d; rest != ""; {
			n, err := fmt.Sscanf(rest, "M%d %dL%d %d", &x1, &y1, &x2, &y2)
			if !assert.NoError(t, err) || !assert.Equal(t, 4, n) {
				return
			}
			for _, x := range []int{x1, x2} {
				assert.True(t, x >= left && x <= right, d)
			}
			for _, y := range []int{y1, y2} {
				assert.True(t, y >= 1 && y <= 37, d)
			}
			rest = rest[len(fmt.Sprintf("M%d %dL%d %d", x1, y1, x2, y2)):]
		}
	}
}
