package logbook

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

var invented = []tiles.Glaze{
	{Code: "QM", Name: "Quarry Milk"}, {Code: "LR", Name: "Lamp Rust"}, {Code: "KM", Name: "Kiln Moss"},
}

func TestWaiting(t *testing.T) {
	w := tiles.Wall{Glazes: invented}
	good := tiles.Piece{Pair: tiles.Pair{First: "qm", Second: "Lamp Rust"}, Bisque: "B3", How: "dip", Foot: "yes"}
	for name, c := range map[string]struct {
		change func(*tiles.Piece)
		want   string
	}{
		"third coat":    {func(p *tiles.Piece) { p.More = []string{"KM"} }, "3 coats are written: two is the most"},
		"unknown glaze": {func(p *tiles.Piece) { p.Second = "Lamp Rusd" }, "“Lamp Rusd” is not on the glaze list: did you mean Lamp Rust (LR)?"},
		"far off":       {func(p *tiles.Piece) { p.First = "moonlight" }, "“moonlight” is not on the glaze list"},
		"no glaze":      {func(p *tiles.Piece) { p.First = "" }, "no first glaze is written"},
		"greenware":     {func(p *tiles.Piece) { p.Bisque = "Greenware" }, "it is unfired: bisque says “Greenware”"},
		"no bisque":     {func(p *tiles.Piece) { p.Bisque = "" }, "no bisque load is written: make sure that it is bisque-fired"},
		"brush":         {func(p *tiles.Piece) { p.How = "Brush" }, "it was brushed: this studio dips only"},
		"foot":          {func(p *tiles.Piece) { p.Foot = "No" }, "the foot is not wiped"},
		"foot unsaid":   {func(p *tiles.Piece) { p.Foot = "" }, "nobody wrote that the foot is wiped"},
	} {
		bad := good
		c.change(&bad)
		ready, held := Waiting(w, logOf([]tiles.Piece{good, bad}), nil)
		assert.Len(t, ready, 1, name)
		if assert.Len(t, held, 1, name) {
			assert.Equal(t, []string{c.want}, held[0].Reasons, name)
		}
	}
}

func TestWaitingPassesOverWhatIsFired(t *testing.T) {
	fired := tiles.Piece{Pair: tiles.Pair{First: "nothing we know"}, Result: "good"}
	ready, held := Waiting(tiles.Wall{Glazes: invented}, logOf([]tiles.Piece{fired}), nil)
	assert.Empty(t, ready)
	assert.Empty(t, held)
}

func TestWaitingAsksOnlyForWhatTheStudioWritesDown(t *testing.T) {
	plain := tiles.Piece{Pair: tiles.Pair{First: "QM"}}
	ready, held := Waiting(tiles.Wall{Glazes: invented}, logOf([]tiles.Piece{plain, plain}), nil)
	assert.Len(t, ready, 2)
	assert.Empty(t, held)
}

func TestWaitingWhereBrushingIsAllowed(t *testing.T) {
	w := tiles.Wall{Glazes: invented}
	w.Dip.Brush, w.Dip.Coats = true, 1
	_, held := Waiting(w, logOf([]tiles.Piece{{Pair: tiles.Pair{First: "QM", Second: "LR"}, How: "brushing"}}), nil)
	assert.Equal(t, []string{"two coats are written: this studio glazes with one"}, held[0].Reasons)
}

func TestWaitingHoldsWhatTheRulesSkip(t *testing.T) {
	ruled := func(p tiles.Pair) string {
		if p.Same(tiles.Pair{First: "QM", Second: "LR"}) {
			return "crawls off"
		}
		return ""
	}
	ready, held := Waiting(tiles.Wall{Glazes: invented}, logOf([]tiles.Piece{piece("LR", "QM", ""), piece("qm", "lr", "")}), ruled)
	assert.Len(t, ready, 1, "the other order is not skipped")
	assert.Equal(t, []string{"the wall's rules skip 1st Quarry Milk → 2nd Lamp Rust: crawls off"}, held[0].Reasons)
}
