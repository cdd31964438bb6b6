package spectral

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// ledLights are the five white LEDs with a phosphor on a blue chip of CIE
// 15:2018, table 12: 2733, 2998, 4103, 5109 and 6598 K. The figures are as the
// open ray-tracing library optrace (MIT) carries them over from the CIE; that
// they are right is seen by their chromaticities, see the test.
//
//go:embed led.csv
var ledLights string

func readLEDs(t testing.TB) Table {
	rows, err := csv.NewReader(strings.NewReader(ledLights)).ReadAll()
	require.NoError(t, err)
	return downTable(t, rows)
}
