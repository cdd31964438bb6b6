package trace

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
)

var invented = []tiles.Glaze{
	{Code: "QM", Name: "Quarry Milk"}, {Code: "LR", Name: "Lamp Rust"}, {Code: "KM", Name: "Kiln Moss"},
}

// some repeats a piece, so many of them with the fault.
func some(n, faulty int, fault string, p tiles.Piece) []tiles.Piece {
	var list []tiles.Piece
	for i := range n {
		q := p
		q.Result = "good"
		if i < faulty {
			q.Result, q.Faults = "", []string{fault}
		}
		list = append(list, q)
	}
	return list
}

func join(lists ...[]tiles.Piece) logbook.Log {
	var all []tiles.Piece
	for _, l := range lists {
		all = append(all, l...)
	}
	return logOf(all)
}

func piece(first, second, load string) tiles.Piece {
	return tiles.Piece{Pair: tiles.Pair{First: first, Second: second}, Load: load, Date: "2026-03-10"}
}

var mossBatches = []tiles.Batch{
	{Glaze: "KM", Name: "6", MixedOn: "2026-01-01"}, {Glaze: "KM", Name: "7", MixedOn: "2026-03-01"},
}

// onDay moves pieces to another day.
func onDay(day string, list []tiles.Piece) []tiles.Piece {
	for i := range list {
		list[i].Date = day
	}
	return list
}

func TestTraceNamesABatchInWords(t *testing.T) {
	log := join(
		some(6, 5, "crawling", piece("QM", "KM", "12")), some(5, 4, "crawling", piece("LR", "KM", "13")),
		some(40, 1, "crawling", piece("QM", "LR", "12")), some(40, 1, "crawling", piece("LR", "QM", "13")),
		onDay("2026-02-01", some(40, 1, "crawling", piece("QM", "KM", "8"))), onDay("2026-02-01", some(40, 1, "crawling", piece("LR", "QM", "8"))),
	)
	r := Faults(log, Studio{Glazes: invented, Batches: mossBatches})
	require.Len(t, r.Faults, 1)
	f := r.Faults[0]
	require.NotEmpty(t, f.Found)
	assert.Equal(t, Suspect{Kind: KindBatchSecond, Glaze: "KM", Name: "7"}, f.Found[0].Suspect)
	say := strings.Join(f.Found[0].Words, " ")
	assert.Contains(t, say, "9 of 11 pieces with batch 7 of Kiln Moss as second crawled; 4 of 160 without. Also true inside single loads.")
	assert.Contains(t, say, "Of the other batches of Kiln Moss, 1 of 40 crawled.")
	assert.Contains(t, say, "This log cannot tell it apart from batch 7 of Kiln Moss: they are on the same pieces. "+
		"To tell them apart: one test piece with batch 7 of Kiln Moss as first.")
	assert.NotContains(t, strings.ToLower(say+Caveat), "caused by")
	assert.Len(t, f.Found, 1, "nothing else is named")
}

// A bad firing must not blame the glaze that happened to be in it.
func TestTraceBlamesTheFiringNotTheGlaze(t *testing.T) {
	log := join(
		some(20, 12, "pinholing", piece("QM", "KM", "5")), some(12, 7, "pinholing", piece("LR", "QM", "5")),
		some(20, 0, "pinholing", piece("QM", "KM", "6")), some(60, 1, "pinholing", piece("LR", "QM", "6")),
		some(60, 1, "pinholing", piece("LR", "QM", "7")),
	)
	r := Faults(log, Studio{Glazes: invented})
	f := r.Faults[0]
	require.NotEmpty(t, f.Found)
	assert.Equal(t, Suspect{Kind: KindLoad, Name: "5"}, f.Found[0].Suspect)
	assert.Len(t, f.Found, 1)
	for _, one := range f.Gone {
		assert.Contains(t, strings.Join(one.Words, " "), "Not so inside single loads: look at the firing first.")
	}
	assert.Equal(t, "19 of 32 pieces in load 5 pinholed; 2 of 140 in other loads.", f.Found[0].Words[0])
}

// Six firings went badly while Kiln Moss was in favor: over all pieces it looks
// worse than any one of them, inside single loads it is no worse than others.
func TestTraceTakesBackWhatIsGoneInsideLoads(t *testing.T) {
	var lists [][]tiles.Piece
	for load := range 20 {
		name := fmt.Sprint(load + 1)
		switch {
		case load < 6:
			lists = append(lists, some(30, 9, "pinholing", piece("KM", "", name)), some(10, 3, "pinholing", piece("QM", "", name)))
		default:
			lists = append(lists, some(4, 0, "", piece("KM", "", name)), some(36, 0, "", piece("QM", "", name)))
		}
	}
	r := Faults(join(lists...), Studio{Glazes: invented})
	f := r.Faults[0]
	for _, one := range f.Found {
		assert.Equal(t, KindLoad, one.Suspect.Kind, one.Name)
	}
	require.NotEmpty(t, f.Gone)
	assert.Equal(t, "54 of 236 pieces with Kiln Moss as first pinholed; 18 of 564 without.", f.Gone[0].Words[0])
	assert.Equal(t, "Not so inside single loads: look at the firing first.", f.Gone[0].Words[1])
}

// A glaze that was only ever the second of one pair: one test piece is enough.
func TestTraceAsksForNoMoreTestPiecesThanNeeded(t *testing.T) {
	log := join(some(20, 12, "running", piece("QM", "KM", "1")), some(20, 12, "running", piece("QM", "KM", "2")),
		some(60, 1, "running", piece("QM", "LR", "1")), some(60, 1, "running", piece("LR", "QM", "2")))
	one := Faults(log, Studio{Glazes: invented}).Faults[0].Found[0]
	assert.Equal(t, []string{"one test piece with Kiln Moss as second, but not as 1st Quarry Milk → 2nd Kiln Moss"}, one.Tests)
}

func TestTraceSaysWhatCannotBeToldApart(t *testing.T) {
	log := join(some(12, 8, "crawling", piece("QM", "KM", "5")), some(80, 1, "crawling", piece("LR", "QM", "6")), some(80, 1, "crawling", piece("LR", "QM", "7")))
	r := Faults(log, Studio{Glazes: invented})
	one := r.Faults[0].Found[0]
	say := strings.Join(one.Words, " ")
	assert.Contains(t, one.Same, Suspect{Kind: KindLoad, Name: "5"})
	assert.Contains(t, say, "It cannot be told from load 5, which held nothing else; fire one like it with another glaze.")
	assert.Contains(t, say, "one test piece with 1st Quarry Milk → 2nd Kiln Moss, but in another load than 5")
	assert.NotContains(t, say, "one test piece in load 5", "a load that is fired takes no more pieces")
}

func TestTraceNeedsGoodPieces(t *testing.T) {
	r := Faults(join(some(9, 9, "crawling", piece("QM", "", "1"))), Studio{Glazes: invented})
	assert.False(t, r.Comparable())
	assert.Zero(t, r.Asked)
	assert.Equal(t, 9, r.Faults[0].Pieces)
	assert.Contains(t, r.Notes()[0], "Every piece in the log has a fault")
}

func TestTraceLeavesOutWhatItCannotCount(t *testing.T) {
	log := join(
		some(3, 1, "crawling", piece("QM", "", "1")), some(2, 1, "crawling", piece("moonlight", "", "1")),
		[]tiles.Piece{piece("QM", "", "2")},
	)
	r := Faults(log, Studio{Glazes: invented})
	assert.Equal(t, []int{3, 2, 1, 2}, []int{r.Pieces, r.Good, r.Waiting, r.Unread})
	notes := strings.Join(r.Notes(), "\n")
	assert.Contains(t, notes, "1 piece has no result yet and is left out.")
	assert.Contains(t, notes, "2 pieces are left out because a glaze of theirs is not on the list.")
	assert.Contains(t, notes, "“moonlight” is not on the glaze list")
	assert.Equal(t, "Too few to tell: a fault is traced from 3 pieces on.", r.Faults[0].SayNothing())
}

// A studio's own word keeps its letters when it heads a fault.
func TestTraceHeadsAFaultByLetters(t *testing.T) {
	r := Faults(join(some(9, 4, "éclatement", piece("QM", "", "1"))), Studio{Glazes: invented})
	assert.Equal(t, "Éclatement: 4 of 9 pieces", r.Faults[0].Heading())
}

func TestTraceOfAnEmptyLog(t *testing.T) {
	r := Faults(logOf(nil), Studio{})
	assert.Zero(t, r.Pieces)
	assert.Contains(t, r.Notes()[0], "The log has no piece with a result yet")
}

// What three pieces share is no news, and no proof of chance either.
func TestTraceSaysWhereThereAreTooFewToTell(t *testing.T) {
	few := Faults(join(some(3, 3, "running", piece("QM", "KM", "1")), some(40, 0, "", piece("QM", "KM", "2")), some(90, 0, "", piece("KM", "LR", "3")), some(60, 0, "", piece("QM", "LR", "1"))), Studio{Glazes: invented})
	assert.Empty(t, few.Faults[0].Found)
	assert.Equal(t, "Too few to tell: what so few pieces share may well be chance.", few.Faults[0].SayNothing())
	even := Faults(join(some(60, 6, "running", piece("QM", "KM", "1")), some(60, 6, "running", piece("KM", "QM", "1")), some(60, 6, "running", piece("LR", "QM", "2"))), Studio{Glazes: invented})
	assert.Equal(t, "Nothing stands out: its pieces have no more in common than chance would give.", even.Faults[0].SayNothing())
}

// One clumsy maker keeps to one clay: neither is named.
func TestTraceNamesNeitherAMakerNorTheirClay(t *testing.T) {
	hand := func(maker, clay string, list []tiles.Piece) []tiles.Piece {
		for i := range list {
			list[i].ID, list[i].Maker, list[i].Clay = fmt.Sprint(maker, i), maker, clay
		}
		return list
	}
	log := join(hand("S1", "red", some(60, 30, "running", piece("QM", "KM", "1"))), hand("S2", "white", some(90, 1, "running", piece("KM", "QM", "1"))), hand("S3", "white", some(90, 1, "running", piece("QM", "LR", "1"))))
	r := Faults(log, Studio{Glazes: invented})
	assert.Empty(t, r.Faults[0].Found)
	require.NotEmpty(t, r.Faults[0].Gone)
	said, err := json.Marshal(r)
	require.NoError(t, err)
	for _, one := range r.Faults[0].Gone {
		assert.Equal(t, "Nobody made pieces both with and without, so this log cannot tell it from how they were made.", one.Words[1])
	}
	assert.NotContains(t, string(said), "S1")
}

// The order of the rows means nothing.
func TestTraceDoesNotDependOnTheOrderOfRows(t *testing.T) {
	s := newStudio(3, 800)
	pieces := s.pieces(&plant{Suspect{Kind: KindPair}, 0.6})
	want, err := json.Marshal(Faults(logOf(pieces), s.Studio))
	require.NoError(t, err)
	s.Shuffle(len(pieces), func(i, j int) { pieces[i], pieces[j] = pieces[j], pieces[i] })
	got, err := json.Marshal(Faults(logOf(pieces), s.Studio))
	require.NoError(t, err)
	assert.JSONEq(t, string(want), string(got))
}

func TestTraceCountsAPieceOnNeitherSideOfWhatIsNotWritten(t *testing.T) {
	var lists [][]tiles.Piece
	for _, shelf := range []string{"top", "low", ""} {
		p := piece("QM", "", "1")
		p.Shelf = shelf
		lists = append(lists, some(30, map[string]int{"top": 15, "low": 1, "": 9}[shelf], "running", p))
	}
	one := Faults(join(lists...), Studio{Glazes: invented}).Faults[0].Found[0]
	assert.Equal(t, Suspect{Kind: KindShelf, Name: "top"}, one.Suspect)
	assert.Equal(t, 30, one.Table.Without)
	assert.Equal(t, 1, one.Table.WithoutFaults)
}

func BenchmarkTrace(b *testing.B) {
	for _, rows := range []int{1_000, 10_000, 100_000} {
		s := newStudio(1, rows)
		s.perLoad = rows / 25 // the same suspects whatever the rows
		s.Batches = s.Batches[:24]
		pieces := s.pieces(&plant{Suspect{Kind: KindShelf}, 0.6})
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Faults(logOf(pieces), s.Studio)
			}
		})
	}
}
