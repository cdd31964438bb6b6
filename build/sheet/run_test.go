package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
)

// flat is a PDF's text in the order of drawing, white space made single.
func flat(t *testing.T, pdf []byte) string {
	t.Helper()
	return strings.Join(strings.Fields(pdfText(t, pdf)), " ")
}

func TestDipRunsTickEveryCoat(t *testing.T) {
	w := placed(wallOf(glazes))
	said := flat(t, drawn(t, sheet.Dips, jobOf(w)))
	require.Contains(t, said, "1st coats")
	require.Contains(t, said, "2nd coats")
	for _, tile := range w.Tiles {
		require.Regexp(t, `\b`+tile.Number.String()+`\b`, said)
	}
}

func TestShelfMapsShowEveryTile(t *testing.T) {
	w := placed(wallOf(glazes))
	said := flat(t, drawn(t, sheet.Shelves, jobOf(w)))
	for _, tile := range w.Tiles {
		require.Contains(t, said, tile.Number.String()+" "+tile.Pair.String())
	}
}

func TestLabelsOfRepeatsSayWhatTheyRepeat(t *testing.T) {
	w := wallOf(glazes[:2])
	w.Tiles = append(w.Tiles, tiles.Tile{Number: 5, Pair: w.Tiles[0].Pair, Status: tiles.Planned, Repeats: 1, Batches: []tiles.BatchName{tiles.NameBatch("QM", "QM-7")}})
	require.Contains(t, flat(t, drawn(t, sheet.Labels, jobOf(w))), "repeats 1, batch QM-7")
}

func TestNewCardsAreOfNewGlazes(t *testing.T) {
	job := jobOf(wallOf(glazes[:3]))
	job.New = sheet.Numbers{}
	for _, tile := range job.Wall.Tiles {
		if tile.Has("HF") {
			job.New[tile.Number] = true
		}
	}
	said := flat(t, drawn(t, sheet.Buckets, job))
	require.Contains(t, said, "Heron Fog")
	require.NotContains(t, said, "Quarry Milk")
}
