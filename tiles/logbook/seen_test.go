package logbook

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

// by gives pieces their makers in turn.
func by(makers int, list []tiles.Piece) []tiles.Piece {
	for i := range list {
		list[i].Maker = "S" + strconv.Itoa(1+i%makers)
	}
	return list
}

func saysOn(s Seen, first, second string) []string {
	_, says := s.On(tiles.Pair{First: first, Second: second})
	return says
}

func TestSeenCountsByOrder(t *testing.T) {
	s := NewSeen(logOf(slices.Concat(
		some(11, 9, "crawled", piece("qm", "Kiln Moss", "1")), some(5, 3, "running", piece("QM", "KM", "2")),
		some(5, 0, "", piece("KM", "QM", "1")), some(4, 0, "", piece("KM", "", "1")), []tiles.Piece{piece("LR", "", "3")},
	)), invented)
	faults, says := s.On(tiles.Pair{First: "QM", Second: "km"})
	assert.Equal(t, []string{"crawling on 9 of 16 pieces", "running on 3 of 16 pieces"}, says)
	assert.Equal(t, []string{"crawling", "running"}, faults)
	assert.Equal(t, []string{"no fault on 5 pieces"}, saysOn(s, "KM", "QM"))
	assert.Empty(t, saysOn(s, "KM", ""), "four pieces are too few to tell of")
	assert.Empty(t, saysOn(s, "LR", ""), "a piece that waits for its firing says nothing")
	assert.Equal(t, "how often each fault was seen with 2 glazes or pairs, without names, anybody's own words, or a count of fewer than 3 people's pieces", s.Say())
	assert.Equal(t, "nothing", NewSeen(logOf(nil), invented).Say())
}

func TestSeenTellsNobodysOwnWords(t *testing.T) {
	s := NewSeen(logOf(slices.Concat(some(12, 4, "Emma S class 8b cried", piece("QM", "KM", "1")), some(3, 3, "a hair in it", piece("QM", "KM", "1")))), invented)
	faults, says := s.On(tiles.Pair{First: "QM", Second: "KM"})
	assert.Equal(t, []string{"another fault on 7 of 15 pieces"}, says)
	assert.Empty(t, faults)
}

func TestSeenPointsAtNobody(t *testing.T) {
	for name, c := range map[string]struct {
		log  []tiles.Piece
		want []string
	}{
		"one of two":            {some(2, 1, "crawling", piece("QM", "KM", "1")), nil},
		"one of many":           {some(20, 1, "crawling", piece("QM", "KM", "1")), []string{"faults on too few of 20 pieces to count them here"}},
		"two of many":           {some(20, 2, "crawling", piece("QM", "KM", "1")), []string{"faults on too few of 20 pieces to count them here"}},
		"many, all one maker's": {by(1, some(20, 9, "crawling", piece("QM", "KM", "1"))), nil},
		"faults of two makers":  {append(by(2, some(9, 9, "crawling", piece("QM", "KM", "1"))), by(9, some(9, 0, "", piece("QM", "KM", "1")))...), []string{"faults on too few of 18 pieces to count them here"}},
		"faults of three":       {append(by(3, some(9, 9, "crawling", piece("QM", "KM", "1"))), by(9, some(9, 0, "", piece("QM", "KM", "1")))...), []string{"crawling on 9 of 18 pieces"}},
		"one more beside":       {append(some(9, 5, "crawling", piece("QM", "KM", "1")), some(1, 1, "running", piece("QM", "KM", "1"))...), []string{"crawling on 5 of 10 pieces", "other faults on too few pieces to count them here"}},
	} {
		assert.Equal(t, c.want, saysOn(NewSeen(logOf(c.log), invented), "QM", "KM"), name)
	}
}
