package site

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// The wall that the questions are asked of: twelve invented glazes, every
// ordered pair and every single, each overlap four fifths the second's color.
var questionGlazes = []struct {
	tiles.Glaze
	lab color.Lab
}{
	{tiles.Glaze{Code: "QM", Name: "Quarry Milk", Finish: "matte", Cone: "6", Color: "warm white", Notes: "Buttery where thick, toasted where thin. The calm partner for anything loud."}, color.Lab{L: 90, A: 1, B: 7}},
	{tiles.Glaze{Code: "FG", Name: "Fen Glass", Finish: "gloss", Cone: "6", Color: "pale green glass", Notes: "Shows every mark you made in the clay. A fine net of cracks is its nature.", Cautions: []string{"The cracks hold stains: not for food"}, Traits: []tiles.Trait{tiles.NotFood}}, color.Lab{L: 74, A: -14, B: 8}},
	{tiles.Glaze{Code: "OH", Name: "Oat Husk", Finish: "matte", Cone: "6", Color: "oatmeal with brown spots", Notes: "Dry to the hand.", Traits: []tiles.Trait{tiles.Crawls}}, color.Lab{L: 77, A: 4, B: 19}},
	{tiles.Glaze{Code: "SF", Name: "Salt Fog", Finish: "satin", Cone: "6", Color: "white and mist blue in streaks", Notes: "Moves a lot.", Cautions: []string{"Runs: waste slab below"}, Traits: []tiles.Trait{tiles.Runny}}, color.Lab{L: 72, A: -3, B: -14}},
	{tiles.Glaze{Code: "HG", Name: "Honey Gate", Finish: "gloss", Cone: "6", Color: "amber", Notes: "Pools dark in hollows, runs pale off edges.", Traits: []tiles.Trait{tiles.Runny}}, color.Lab{L: 60, A: 13, B: 46}},
	{tiles.Glaze{Code: "HS", Name: "Heron Slate", Finish: "satin", Cone: "6", Color: "grey-blue with iron spots", Notes: "The steadiest bucket we have."}, color.Lab{L: 50, A: -1, B: -3}},
	{tiles.Glaze{Code: "MW", Name: "Moss Wool", Finish: "matte", Cone: "6", Color: "moss green", Notes: "Two greens that never quite mix."}, color.Lab{L: 46, A: -13, B: 26}},
	{tiles.Glaze{Code: "CM", Name: "Copper Marsh", Finish: "matte", Cone: "6", Color: "green-blue", Notes: "Goes bronze where thin.", Cautions: []string{"Strong copper: gloves, dipped last; never for food"}, Traits: []tiles.Trait{tiles.Colorant, tiles.NotFood}}, color.Lab{L: 48, A: -24, B: -8}},
	{tiles.Glaze{Code: "PP", Name: "Plum Pith", Finish: "satin", Cone: "6", Color: "dusty plum", Notes: "Shy alone; wakes up under Quarry Milk."}, color.Lab{L: 38, A: 20, B: -12}},
	{tiles.Glaze{Code: "LR", Name: "Lamp Rust", Finish: "satin", Cone: "6", Color: "iron red-brown", Notes: "Red where it is thick and cools slowly."}, color.Lab{L: 38, A: 27, B: 27}},
	{tiles.Glaze{Code: "TB", Name: "Tarn Blue", Finish: "gloss", Cone: "6", Color: "deep blue", Notes: "A little goes far."}, color.Lab{L: 28, A: 6, B: -36}},
	{tiles.Glaze{Code: "PI", Name: "Pitch", Finish: "gloss", Cone: "6", Color: "black breaking rust", Notes: "Black on the flat, rust on every edge."}, color.Lab{L: 10, A: 1, B: 1}},
}

func questionWall() tiles.Wall {
	w := tiles.Wall{Settings: tiles.Settings{Name: "Questions", Cone: "6", Language: "en", Diagonal: tiles.DiagonalSingle}}
	for _, g := range questionGlazes {
		w.Glazes = append(w.Glazes, g.Glaze)
	}
	for i, one := range questionGlazes {
		for j, two := range questionGlazes {
			n := tiles.Number(len(w.Tiles) + 1)
			t := tiles.Tile{Number: n, Pair: tiles.Pair{First: one.Code, Second: two.Code}, Status: tiles.Fired, Load: 1 + i%3}
			r := tiles.Reading{Tile: n, Zone: tiles.ZoneOverlap, Doubt: 3, Class: tiles.ClassGrey, Kept: 1, Spread: 2,
				L: 0.2*one.lab.L + 0.8*two.lab.L, A: 0.2*one.lab.A + 0.8*two.lab.A, B: 0.2*one.lab.B + 0.8*two.lab.B}
			if i == j {
				t.Second, r.Zone = "", tiles.ZoneWhole
			}
			if two.Code == "SF" {
				r.Spread = 8
			}
			w.Tiles, w.Readings = append(w.Tiles, t), append(w.Readings, r)
		}
	}
	return w
}

// question is what a student types, and what a potter expects: tiles that must
// come, tiles that must not, how many there may be, which comes first. A tile
// is named by its codes: "LR QM" is 1st Lamp Rust, 2nd Quarry Milk; "* QM" is
// all of Quarry Milk over another; "QM *" all of it under another.
type question struct {
	typed       string
	must, never []string
	count       int // 0 = any number
	advice      bool
}

// Judged as a potter would before the search was written (common practice, no
// source), then held against it.
var questions = []question{
	// food
	{"food", []string{"QM", "HS", "LR"}, []string{"FG", "CM", "* FG", "* CM", "LR QM"}, 10, true},
	{"food safe", []string{"QM", "TB"}, []string{"FG", "CM", "QM LR"}, 10, true},
	{"food-safe", []string{"QM"}, []string{"FG", "* CM"}, 10, true},
	{"is it safe to eat off?", []string{"QM"}, []string{"FG", "CM"}, 10, true},
	{"safe for food blue", []string{"TB"}, []string{"CM", "LR TB", "FG TB"}, 0, true},
	{"not for food", []string{"FG", "CM", "* FG", "CM *"}, []string{"QM", "LR QM"}, 44, true},
	{"never for food", []string{"FG", "CM"}, []string{"QM"}, 44, true},
	{"mug", []string{"QM"}, []string{"FG", "QM FG", "CM *"}, 0, true},
	{"liner", []string{"QM"}, []string{"FG", "CM", "QM LR"}, 10, true},
	{"blue mug", []string{"TB", "QM TB"}, []string{"FG TB", "LR"}, 0, true},
	{"nontoxic", []string{"QM"}, []string{"FG", "CM"}, 10, true},
	{"dinnerware", []string{"QM"}, []string{"FG", "CM"}, 10, true},
	{"milk over rust food safe", []string{"LR QM"}, []string{"QM LR"}, 1, true},
	// order
	{"milk over rust", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"rust over milk", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"milk on rust", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"milk on top of rust", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"rust under milk", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"rust underneath milk", []string{"LR QM"}, nil, 1, false},
	{"milk under rust", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"milk then rust", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"milk followed by rust", []string{"QM LR"}, nil, 1, false},
	{"milk -> rust", []string{"QM LR"}, nil, 1, false},
	{"milk first", []string{"QM", "QM *"}, []string{"LR QM", "* QM"}, 12, false},
	{"milk first, rust", []string{"QM LR"}, []string{"LR QM"}, 1, false},
	{"milk first then rust", []string{"QM LR"}, nil, 1, false},
	{"first milk second rust", []string{"QM LR"}, nil, 1, false},
	{"rust with milk on top", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"rust with milk over it", []string{"LR QM"}, []string{"QM LR"}, 1, false},
	{"what goes over milk?", []string{"QM LR", "QM *"}, []string{"LR QM", "QM"}, 11, false},
	{"under rust", []string{"QM LR", "* LR"}, []string{"LR QM"}, 11, false},
	{"QM over LR", []string{"LR QM"}, nil, 1, false},
	{"Quarry Milk over Lamp Rust", []string{"LR QM"}, nil, 1, false},
	{"milk and rust", []string{"QM LR", "LR QM"}, []string{"QM", "PI QM"}, 2, false},
	{"milk + rust", []string{"QM LR", "LR QM"}, nil, 2, false},
	{"white over blue", []string{"TB QM"}, []string{"QM TB"}, 0, false},
	{"milk alone", []string{"QM"}, []string{"QM LR"}, 1, false},
	{"just milk", []string{"QM"}, []string{"LR QM"}, 1, false},
	{"moss after pitch", []string{"PI MW"}, []string{"MW PI"}, 1, false},
	// not
	{"not green", []string{"QM", "LR", "TB"}, []string{"MW", "FG", "QM MW", "QM FG"}, 0, false},
	{"milk not rust", []string{"QM", "QM TB"}, []string{"QM LR", "LR QM"}, 21, false},
	{"blue that doesn't run", []string{"TB", "QM TB"}, []string{"SF TB", "HG TB"}, 0, false},
	{"milk without crawling", []string{"QM", "QM LR"}, []string{"OH QM", "QM OH"}, 0, false},
	{"no runs", []string{"QM", "LR QM"}, []string{"SF", "HG", "QM SF"}, 100, false},
	{"brown but not runny", []string{"LR", "QM LR"}, []string{"HG LR", "SF LR"}, 0, false},
	// colors
	{"teal", []string{"CM", "HS CM"}, []string{"LR", "MW", "QM", "TB"}, 0, false},
	{"turquoise", []string{"CM"}, []string{"LR", "MW", "TB", "PI"}, 0, false},
	{"celadon", []string{"FG", "QM FG"}, []string{"LR", "TB", "HG"}, 0, false},
	{"navy", []string{"TB"}, []string{"SF", "CM", "LR", "QM"}, 0, false},
	{"cream", []string{"QM"}, []string{"TB", "LR", "PI", "HS"}, 0, false},
	{"beige", []string{"OH"}, []string{"TB", "PI", "MW"}, 0, false},
	{"amber", []string{"HG"}, []string{"TB", "QM", "PI"}, 0, false},
	{"gray", []string{"HS"}, []string{"LR", "HG", "TB", "MW"}, 0, false},
	{"grey", []string{"HS"}, []string{"LR", "HG", "TB", "MW"}, 0, false},
	{"violet", []string{"PP"}, []string{"LR", "MW", "QM"}, 0, false},
	{"purple", []string{"PP", "HS PP"}, []string{"LR", "MW", "QM"}, 0, false},
	{"black", []string{"PI", "LR PI"}, []string{"QM", "TB", "LR"}, 0, false},
	{"white", []string{"QM"}, []string{"PI", "TB", "LR", "MW"}, 0, false},
	{"blue", []string{"TB", "QM TB", "SF"}, []string{"LR", "HG", "QM", "TB QM", "TB LR"}, 0, false},
	{"dark blue", []string{"TB"}, []string{"SF", "LR", "PI"}, 0, false},
	{"light green", []string{"FG"}, []string{"MW", "TB", "LR"}, 0, false},
	{"yellow", nil, []string{"MW", "QM", "QM MW"}, 0, false},
	{"greens", []string{"MW", "FG"}, []string{"LR", "TB"}, 0, false},
	{"turqoise", []string{"CM"}, []string{"LR"}, 0, false},
	{"blue or green", []string{"TB", "MW"}, []string{"LR", "QM"}, 0, false},
	{"brown and blue", []string{"LR TB", "TB LR"}, []string{"QM", "QM MW"}, 0, false},
	{"something shiny and blue", []string{"TB"}, []string{"HS", "LR"}, 0, false},
	{"matt white", []string{"QM"}, []string{"SF", "TB"}, 0, false},
	{"show me a glossy black", []string{"PI"}, []string{"QM", "TB"}, 0, false},
	{"rust", []string{"LR", "LR *", "* LR"}, []string{"QM", "TB", "MW"}, 0, false},
	// numbers, cones, finish and use
	{"13", []string{"FG QM"}, nil, 1, false},
	{"t13", []string{"FG QM"}, nil, 1, false},
	{"tile 13", []string{"FG QM"}, nil, 1, false},
	{"#13", []string{"FG QM"}, nil, 1, false},
	{"^6 blue", []string{"TB"}, []string{"LR"}, 0, false},
	{"cone6 milk", []string{"QM", "QM LR"}, []string{"TB"}, 23, false},
	{"cone 06", nil, []string{"QM"}, 0, false},
	{"mottled", []string{"QM SF"}, []string{"QM", "QM LR"}, 12, false},
	{"carved", []string{"FG"}, []string{"TB", "QM"}, 0, false},
	{"crackle", []string{"FG"}, []string{"QM", "TB"}, 0, false},
	{"runny", []string{"SF", "HG", "QM SF"}, []string{"QM", "LR"}, 44, false},
	{"crawls", []string{"OH", "QM OH"}, []string{"QM", "QM LR"}, 23, false},
	{"bronze where thin", []string{"CM"}, []string{"QM", "TB"}, 0, false},
	{"oatmeal", []string{"OH"}, []string{"TB", "PI"}, 0, false},
	{"milk on porcelain", []string{"QM", "QM LR", "LR QM"}, []string{"TB"}, 23, false},
}

func TestQuestionsAsStudentsAskThem(t *testing.T) {
	wall := questionWall()
	dir := build(t, Input{Wall: wall})
	b := openTab(t, 1280, 900)
	b.visit(fileURL(dir, "index.html"))
	eval[any](b, `(window.asked = twodip.ask.build(twodip.columns()), 1)`)
	right := 0
	for _, q := range slices.Concat(questions, moreQuestions) {
		got := eval[struct {
			Tiles  []int `json:"tiles"`
			Advice bool  `json:"advice"`
		}](b, fmt.Sprintf(`(() => { const w = twodip.columns(), r = twodip.ask.search(w, asked, %s); return { tiles: r.rows.map(i => w.tile[i]), advice: r.advice } })()`, asJSON(t, q.typed)))
		if wrong := q.wrong(wall, got.Tiles); wrong != "" || got.Advice != q.advice {
			assert.Fail(t, q.typed, "%s; advice %v, %d tiles", wrong, got.Advice, len(got.Tiles))
			continue
		}
		right++
	}
	t.Logf("%d of %d questions answered as judged", right, len(questions)+len(moreQuestions))
	b.quiet()
}

// wrong says what is wrong with an answer; "" = nothing.
func (q question) wrong(w tiles.Wall, got []int) string {
	in := map[tiles.Pair]bool{}
	for _, n := range got {
		t, _ := w.Tile(tiles.Number(n))
		in[t.Pair] = true
	}
	var says []string
	for _, t := range w.Tiles {
		for _, code := range q.must {
			if named(code, t.Pair) && !in[t.Pair] {
				says = append(says, "lacks "+t.Pair.String())
			}
		}
		for _, code := range q.never {
			if named(code, t.Pair) && in[t.Pair] {
				says = append(says, "has "+t.Pair.String())
			}
		}
	}
	if q.count > 0 && len(got) != q.count {
		says = append(says, fmt.Sprintf("wanted %d", q.count))
	}
	return strings.Join(says, ", ")
}

// named says whether a tile is one of those that the codes name.
func named(codes string, p tiles.Pair) bool {
	first, second, two := strings.Cut(codes, " ")
	if !two {
		return p.Single() && p.First == first
	}
	return !p.Single() && (first == "*" || first == p.First) && (second == "*" || second == p.Second)
}
