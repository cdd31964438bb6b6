package record

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
)

// What no person writes is refused in a sentence, by what would be kept of it.
func TestGreedyLogs(t *testing.T) {
	different := "first,faults\n"
	for i := range 8_000 {
		different += fmt.Sprintf("QM,word%d\n", i)
	}
	for text, says := range map[string]string{
		different: "log.csv:2002: up to here the faults are written in more than 2000 different words; " +
			"write a fault in one or two words, and what else is to say into the note",
		"first,faults\nQM," + strings.Repeat("a;", 500) + "\n":         "log.csv:2: faults holds 500 entries, and 100 are the most: write what does not fit into the note",
		"first,faults\nQM," + strings.Repeat("crazing;", 9_000) + "\n": "log.csv:2: a cell holds 72000 letters, and a spreadsheet takes up to 32767",
		"first,faults\n" + strings.Repeat(",", 15<<20):                 "log.csv:2: the table is larger than 200000 rows or 200 columns",
		strings.Repeat(",", 15<<20):                                    "log.csv:1: the table is larger than 200000 rows or 200 columns",
		"first,faults\nQM,\"a\n" + strings.Repeat(",", 300) + "\"\n":   "",
	} {
		_, err := ReadPieces("log.csv", strings.NewReader(text), tiles.LogSettings{})
		if says == "" {
			assert.NoError(t, err)
			continue
		}
		assert.ErrorContains(t, err, says)
	}
}
