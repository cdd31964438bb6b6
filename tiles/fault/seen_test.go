package fault

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

func TestSeenCountsByOrder(t *testing.T) {
	s := NewSeen(join(
		some(11, 9, "crawled", piece("qm", "Kiln Moss", "1")), some(5, 1, "running", piece("QM", "KM", "2")),
		some(4, 0, "", piece("KM", "QM", "1")), some(1, 0, "", piece("KM", "", "1")), []tiles.Piece{piece("LR", "", "3")},
	), invented)
	assert.Equal(t, []string{"crawling on 9 of 16 pieces", "running on 1 of 16 pieces"}, s.On(tiles.Pair{First: "QM", Second: "km"}))
	assert.Equal(t, []string{"no fault on 4 pieces"}, s.On(tiles.Pair{First: "KM", Second: "QM"}))
	assert.Equal(t, []string{"no fault on 1 piece"}, s.On(tiles.Pair{First: "KM"}))
	assert.Empty(t, s.On(tiles.Pair{First: "LR"}), "a piece that waits for its firing says nothing")
}
