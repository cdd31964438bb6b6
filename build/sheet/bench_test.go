package sheet_test

import (
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
)

// BenchmarkLabels prints the 3,600 labels of sixty glazes.
func BenchmarkLabels(b *testing.B) {
	w := wallOf(many(60))
	w.Labels.Sheet = "letter-30"
	bench(b, sheet.Labels, jobOf(w))
}

// BenchmarkSheets prints each sheet of a wall of sixty glazes.
func BenchmarkSheets(b *testing.B) {
	job := jobOf(placed(wallOf(many(60))))
	for _, s := range sheet.Sheets() {
		b.Run(s.Name, func(b *testing.B) { bench(b, s.Draw, job) })
	}
}

func bench(b *testing.B, draw func(io.Writer, sheet.Job) (int, error), job sheet.Job) {
	b.ReportAllocs()
	var bytes counter
	for b.Loop() {
		bytes = 0
		_, err := draw(&bytes, job)
		require.NoError(b, err)
	}
	b.ReportMetric(float64(bytes), "bytes")
}

// counter counts what is written.
type counter int

func (c *counter) Write(p []byte) (int, error) {
	*c += counter(len(p))
	return len(p), nil
}
