package site

import (
	"regexp"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// A mark is a caution in two or three words, shown wherever a tile is: on
// cards, in lists, side by side, in the room and on paper. The sentence it
// stands for is on the tile's own page.
type mark struct {
	id   string // a word of the address, to leave such tiles out
	says string
	on   func(m *maker, h *hung) bool
	long bool // not on small cards: it holds for nearly every tile
	care bool // on the wall, too: it is about the hand or about food
}

// marks lists them, what can hurt first. A tile has bit k of its marks where
// marks[k] holds.
var marks = []mark{
	{id: "food", care: true, says: "never for food", on: func(_ *maker, h *hung) bool { return h.either(neverForFood) }},
	{id: "gloves", care: true, says: "gloves", on: func(_ *maker, h *hung) bool { return h.either(has(tiles.Soluble)) }},
	{id: "runs", care: true, says: "runs", on: func(_ *maker, h *hung) bool { return h.either(runs) }},
	{id: "crawls", care: true, says: "crawls", on: func(_ *maker, h *hung) bool { return h.either(crawls) }},
	{id: "slides", care: true, says: "may slide off", on: func(_ *maker, h *hung) bool { return !h.Single() && h.first.Has(tiles.Slick) }},
	{id: "gone", says: "bucket gone", on: func(_ *maker, h *hung) bool { return h.either(bucket(tiles.BucketGone)) }},
	{id: "remix", says: "being remixed", on: func(_ *maker, h *hung) bool { return h.either(bucket(tiles.BucketRemixing)) }},
	{id: "low", says: "bucket low", on: func(_ *maker, h *hung) bool { return h.either(bucket(tiles.BucketLow)) }},
	{id: "faults", says: "faults seen", on: func(m *maker, h *hung) bool { faults, _ := m.seen(h); return len(faults) > 0 }},
	{id: "untested", says: "not tested for food", long: true, on: func(_ *maker, h *hung) bool { return !h.either(neverForFood) }},
}

// either asks both glazes of a tile.
func (h *hung) either(is func(tiles.Glaze) bool) bool {
	return is(h.first) || !h.Single() && is(h.second)
}

func has(t tiles.Trait) func(tiles.Glaze) bool {
	return func(g tiles.Glaze) bool { return g.Has(t) }
}

func bucket(s tiles.BucketState) func(tiles.Glaze) bool {
	return func(g tiles.Glaze) bool { return g.Bucket == s }
}

func runs(g tiles.Glaze) bool {
	return g.Has(tiles.Runny) || cautioned(g, runsWords)
}

func crawls(g tiles.Glaze) bool {
	return g.Has(tiles.Crawls) || cautioned(g, crawlsWords)
}

// neverForFood says that the teacher keeps the glaze off whatever touches
// food, by its trait or in the words of a caution.
func neverForFood(g tiles.Glaze) bool {
	return g.Has(tiles.NotFood) || cautioned(g, foodWords)
}

// What a teacher's own caution says in other words than a trait. A denial
// ("does not run") is none.
var (
	foodWords   = regexp.MustCompile(`\b(never|not|no|nothing|unsafe|keep (it )?(off|away))\b[^.;]*\b(food|eat|eats|drink|drinks|tableware|dinnerware|functional)\b`)
	testedWords = regexp.MustCompile(`\bnot (yet )?(been )?tested\b`)
	runsWords   = regexp.MustCompile(`\b(runs|runny|very fluid|drips)\b`)
	crawlsWords = regexp.MustCompile(`\b(crawls|crawling)\b`)
	denialWords = regexp.MustCompile(`\b(not|never|hardly|rarely)( \w+)? (run|runs|runny|drip|crawl|crawls|crawling)\b`)
)

func cautioned(g tiles.Glaze, words *regexp.Regexp) bool {
	for _, c := range g.Cautions {
		c = strings.ToLower(c)
		if words.MatchString(testedWords.ReplaceAllString(c, "")) && !denialWords.MatchString(c) {
			return true
		}
	}
	return false
}

// markBits is the tile's marks as bits, once reckoned with the tiles.
func (m *maker) markBits(h *hung) int {
	bits := 0
	for k, one := range marks {
		if one.on(m, h) {
			bits |= 1 << k
		}
	}
	return bits
}

// careful says that a mark of a tile is about the hand or about food, and not
// about today's bucket or a fault that was seen.
func (h *hung) careful() bool {
	for k, one := range marks {
		if h.marks&(1<<k) != 0 && one.care {
			return true
		}
	}
	return false
}

// shortMarks says a tile's marks for a small card.
func (m *maker) shortMarks(h *hung) []string {
	var says []string
	for k, one := range marks {
		if h.marks&(1<<k) != 0 && !one.long {
			says = append(says, one.says)
		}
	}
	return says
}
