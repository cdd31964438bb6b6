package sheet_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace"
)

// record gives a job a log in which the pair of its first two glazes blisters,
// the buckets' gravities, and pieces that wait.
func record(job *sheet.Job) {
	first, second := job.Wall.Glazes[0], job.Wall.Glazes[1]
	pair := tiles.Pair{First: first.Code, Second: second.Code}
	log := func(yield func(tiles.Piece) bool) {
		for i := range 120 {
			p := tiles.Piece{ID: fmt.Sprint("P", i), Maker: "M7", Result: "good", Load: fmt.Sprint(i % 3), Pair: tiles.Pair{First: second.Code}}
			if i < 12 {
				p.Pair = pair
			}
			if i < 9 {
				p.Result, p.Faults = "", []string{"blistered"}
			}
			if !yield(p) {
				return
			}
		}
	}
	report := trace.Faults(log, trace.Studio{Glazes: job.Wall.Glazes})
	var batches []tiles.Batch
	for i := range 30 {
		batches = append(batches, tiles.Batch{Glaze: first.Code, Name: fmt.Sprint(i + 1), MixedOn: fmt.Sprintf("2026-01-%02d", i+1), SG: 1.44 + float64(i%3)/100})
	}
	drift := drift.Compare(job.Wall, batches, nil)
	job.Trace, job.Drift = &report, &drift
	job.Pieces = []tiles.Piece{{ID: "31", Pair: pair, Load: "9", Shelf: "top"}, {ID: "a piece with a long name", Pair: tiles.Pair{First: second.Code}, Load: "10"}}
	job.Held = []logbook.Held{{Piece: tiles.Piece{ID: "33"}, Reasons: []string{"3 coats are written: two is the most", "“Lamp Rusd” is not on the glaze list: did you mean Lamp Rust (LR)?"}}}
}

func recorded(list ...tiles.Glaze) sheet.Job {
	return jobOf(tiles.Wall{Settings: tiles.Settings{Name: "Example", Paper: "a4"}, Glazes: list})
}

var milk, moss = tiles.Glaze{Code: "QM", Name: "Quarry Milk"}, tiles.Glaze{Code: "KM", Name: "Kiln Moss"}

func TestTraceSheetSaysWhatTheTraceSays(t *testing.T) {
	job := recorded(milk, moss)
	said := pdfText(t, drawn(t, sheet.Trace, job))
	said = strings.Join(strings.Fields(said), " ")
	assert.Contains(t, said, "9 of 12 pieces with 1st Quarry Milk → 2nd Kiln Moss blistered; 0 of 108 without.")
	assert.Contains(t, said, "Also true inside single loads.")
	assert.Contains(t, said, "Broken blisters are sharp")
	assert.Contains(t, said, "not why they came out so")
	assert.NotContains(t, said, "M7", "nobody's mark is printed")
}

func TestTraceSheetWithoutALog(t *testing.T) {
	_, err := sheet.Trace(&bytes.Buffer{}, sheet.Job{})
	assert.ErrorIs(t, err, sheet.ErrNothing)
	_, err = sheet.Drift(&bytes.Buffer{}, sheet.Job{Drift: &drift.Report{}})
	assert.ErrorIs(t, err, sheet.ErrNothing)
}

// A trace of hostile names must be a page like any other.
func TestTraceSheetOfHostileNames(t *testing.T) {
	job := recorded(tiles.Glaze{Code: "A", Name: "\U0001F600 <b>\x00\xff"}, tiles.Glaze{Code: "B", Name: strings.Repeat("Very Long Name ", 40)})
	var pdf bytes.Buffer
	_, err := sheet.Trace(&pdf, job)
	require.NoError(t, err)
	var again bytes.Buffer
	_, err = sheet.Trace(&again, job)
	require.NoError(t, err)
	assert.Equal(t, pdf.Bytes(), again.Bytes(), "the same trace gives the same bytes")
}

func TestShelvesListThePiecesThatMayBeLoaded(t *testing.T) {
	job := recorded(milk, moss)
	said := pdfText(t, drawn(t, sheet.Shelves, job))
	assert.Contains(t, said, "Pieces for load 9")
	assert.Contains(t, said, "1st Quarry Milk → 2nd Kiln Moss")
	assert.Contains(t, said, "Not to be loaded as they are")
	assert.Contains(t, said, "3 coats are written: two is the most.")
}
