package logbook

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles"
)

func TestClerkReadsKindlyAndSaysSo(t *testing.T) {
	c := NewClerk(invented)
	p := c.Piece(tiles.Piece{
		Pair: tiles.Pair{First: "quarry  MILK", Second: "km"}, How: "Dip", Faults: []string{"Pin holes", "crawled", "pinholing"}, Load: "12 A",
	})
	assert.Equal(t, tiles.Pair{First: "QM", Second: "KM"}, p.Pair)
	assert.Equal(t, []string{"pinholing", "crawling"}, p.Faults)
	assert.Equal(t, "dipped", p.How)
	assert.Equal(t, "12 A", c.Piece(tiles.Piece{Load: "12 a"}).Load)
	assert.Subset(t, c.Said(), []string{
		"glaze “quarry  MILK” read as QM", "glaze “km” read as KM", "fault “Pin holes” read as pinholing", "fault “crawled” read as crawling",
		"load “12 a” read as 12 A",
	})
	assert.Empty(t, c.Unknown())
}

func TestClerkAcceptsNoTypo(t *testing.T) {
	c := NewClerk(invented)
	for line := range 3 {
		p := c.Piece(tiles.Piece{Pair: tiles.Pair{First: "Kiln Mos"}, Faults: []string{"crawlng"}, Line: line + 2})
		assert.Equal(t, "Kiln Mos", p.First)
		assert.Equal(t, []string{"crawlng"}, p.Faults)
	}
	assert.Equal(t, []Unknown{
		{What: "glaze", Written: "Kiln Mos", Nearest: "Kiln Moss (KM)", Lines: []int{2, 3, 4}, Times: 3},
		{What: "fault", Written: "crawlng", Nearest: "crawling", Lines: []int{2, 3, 4}, Times: 3},
	}, c.Unknown())
	assert.Equal(t, "“crawlng” is not among the fault words: did you mean crawling?", c.Unknown()[1].Say())
}

func TestClerkOnResults(t *testing.T) {
	for _, c := range []struct {
		result string
		faults []string
		want   []string
		opened bool
	}{
		{"good", nil, nil, true}, {"OK", nil, nil, true}, {"", nil, nil, false}, {"in the kiln", nil, nil, false},
		{"", []string{"none"}, nil, true}, {"fault", nil, []string{"fault not named"}, true},
		{"crawled", nil, []string{"crawling"}, true}, {"good", []string{"crawling"}, []string{"crawling"}, true},
	} {
		p := NewClerk(nil).Piece(tiles.Piece{Result: c.result, Faults: c.faults})
		assert.Equal(t, c.want, p.Faults, "%+v", c)
		assert.Equal(t, c.opened, Opened(p), "%+v", c)
	}
}

func TestNearestIsShyOfShortWords(t *testing.T) {
	for typed, want := range map[string]string{"KN": "", "Lamp Rst": "Lamp Rust", "Lamp": "", "Qarry Mlk": "Quarry Milk"} {
		got, ok := Nearest(typed, []string{"KM", "QM", "Lamp Rust", "Quarry Milk"})
		assert.Equal(t, want != "", ok, typed)
		if ok {
			assert.Equal(t, want, got)
		}
	}
}

func TestEveryFaultHasASignAndACheck(t *testing.T) {
	for _, w := range Words {
		assert.NotEmpty(t, w.Did, w.Name)
		assert.NotEmpty(t, w.Sign, w.Name)
		assert.NotEmpty(t, w.Check, w.Name)
		assert.Equal(t, w.Name, wordForms[w.Name])
		for _, f := range w.Forms {
			assert.Equal(t, w.Name, wordForms[f], "%s is written under two words", f)
		}
	}
}

func TestClerkReadsNoSecondCoat(t *testing.T) {
	for _, written := range []string{"none", "-", "N/A", "No second"} {
		c := NewClerk(invented)
		assert.Equal(t, tiles.Pair{First: "QM"}, c.Piece(tiles.Piece{Pair: tiles.Pair{First: "QM", Second: written}}).Pair)
		assert.Equal(t, []string{"glaze “" + written + "” read as no glaze"}, c.Said())
	}
	c := NewClerk([]tiles.Glaze{{Code: "NO", Name: "North Oat"}})
	assert.Equal(t, "NO", c.Piece(tiles.Piece{Pair: tiles.Pair{First: "no"}}).First, "a code is a code")
}

func TestClerkTellsAResultThatSaysNothing(t *testing.T) {
	c := NewClerk(invented)
	for _, result := range []string{"meh", "goood", "waiting", "", "good", "crawled"} {
		c.Piece(tiles.Piece{Result: result, Line: 7})
	}
	var said []string
	for _, u := range c.Unknown() {
		said = append(said, u.Say())
	}
	assert.Equal(t, []string{
		"“goood” is not a result: did you mean good?",
		"“meh” is not a result: write good, or the fault below faults; until then the piece counts as waiting",
	}, said)
}

// What the clerk has read once it reads again as it stands, and nothing need be
// said: the log keeps the read form.
func TestClerkReadsItsOwnHand(t *testing.T) {
	written := []string{"", "qm", "Lamp Rust", "none", "Kiln Mos", "crawled", "Pin holes", "crawlng", "GOOD", "fault", "dip", "top", "Top", "\x00", "a and b"}
	rapid.Check(t, func(r *rapid.T) {
		any := func(label string) string { return rapid.SampledFrom(written).Draw(r, label) }
		once := NewClerk(invented).Piece(tiles.Piece{
			Pair: tiles.Pair{First: any("first"), Second: any("second")}, More: []string{any("more")}, How: any("how"),
			Load: any("load"), Shelf: any("shelf"), Result: any("result"), Faults: []string{any("fault"), any("another")},
		})
		again := NewClerk(invented)
		twice := again.Piece(once)
		assert.Equal(t, once, twice)
		assert.Empty(t, again.Said())
	})
}
