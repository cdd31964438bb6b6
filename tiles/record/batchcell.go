package record

import (
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// A cell of batches has a label a batch with " + " between: "KM 3 + QM 2". A
// label with a + of its own stands in quotation marks, doubled inside it, as in
// a CSV cell (RFC 4180, section 2).
const batchJoin = " + "

var batchColumn = column[tiles.Tile]{
	name: "batch",
	get: func(_ *table.Table, t tiles.Tile) string {
		labels := make([]string, len(t.Batches))
		for i, b := range t.Batches {
			labels[i] = quoteLabel(b.String())
		}
		return strings.Join(labels, batchJoin)
	},
	set: func(t *tiles.Tile, cell string) error {
		labels := splitLabels(cell)
		if err := fewEnough(len(labels)); err != nil {
			return err
		}
		for _, label := range labels {
			t.Batches = append(t.Batches, tiles.ReadBatchName(label, t.First, t.Second))
		}
		return nil
	},
}

func quoteLabel(label string) string {
	if !strings.ContainsAny(label, `+"`) {
		return label
	}
	return `"` + strings.ReplaceAll(label, `"`, `""`) + `"`
}

// splitLabels takes the labels apart; one whose quotation mark is never closed
// ends with the cell.
func splitLabels(cell string) []string {
	var labels []string
	for cell = strings.TrimSpace(cell); cell != ""; {
		label, rest := cutLabel(cell)
		if label = strings.TrimSpace(label); label != "" {
			labels = append(labels, label)
		}
		cell = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), "+"))
	}
	return labels
}

func cutLabel(cell string) (label, rest string) {
	if !strings.HasPrefix(cell, `"`) {
		label, rest, _ = strings.Cut(cell, "+")
		return label, rest
	}
	for i := 1; i < len(cell); i++ {
		switch {
		case cell[i] != '"':
		case strings.HasPrefix(cell[i:], `""`):
			i++
		default:
			return strings.ReplaceAll(cell[1:i], `""`, `"`), cell[i+1:]
		}
	}
	return cell[1:], ""
}
