package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkTraceCommand runs trace on logs of growing length over the same
// suspects: the time grows with the rows, the heap that is held must not.
func BenchmarkTraceCommand(b *testing.B) {
	for _, rows := range []int{1_000, 10_000, 100_000} {
		wall := b.TempDir()
		writeLongLog(b, wall, rows)
		b.Run(fmt.Sprint(rows), func(b *testing.B) {
			peak := watchHeap(b)
			for b.Loop() {
				var out, err bytes.Buffer
				require.Zero(b, execute([]string{"trace", "--wall", wall}, nil, &out, &err), err.String())
			}
			b.ReportMetric(float64(peak())/1e6, "peak-MB")
		})
	}
}

// watchHeap samples the heap that the program holds until peak is asked for.
func watchHeap(b *testing.B) (peak func() uint64) {
	stop, done := make(chan bool), make(chan uint64)
	go func() {
		var most uint64
		var m runtime.MemStats
		for {
			select {
			case <-stop:
				done <- most
				return
			default:
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapAlloc)
				time.Sleep(5 * time.Millisecond)
			}
		}
	}()
	return func() uint64 { close(stop); return <-done }
}

func writeLongLog(b *testing.B, wall string, rows int) {
	b.Helper()
	random := rand.New(rand.NewPCG(1, 2))
	var log bytes.Buffer
	log.WriteString("piece,date,clay,bisque,first,second,how,load,shelf,result,faults\n")
	for i := range rows {
		result := "good,"
		if random.Float64() < 0.02 {
			result = ",crawling"
		}
		fmt.Fprintf(&log, "P%d,2026-%02d-%02d,buff,B1,%c,%c,dipped,%d,%s,%s\n", i, 1+i*12/rows, 1+i%28, 'A'+rune(random.IntN(12)), 'A'+rune(random.IntN(12)),
			1+i*25/rows, []string{"top", "middle", "low"}[i%3], result)
	}
	glazes := "code,name\n"
	for i := range 12 {
		glazes += fmt.Sprintf("%c,Glaze %c\n", 'A'+i, 'A'+i)
	}
	for name, text := range map[string]string{"wall.yaml": "name: Example\n", "content/glazes.csv": glazes, "tiles/log.csv": log.String()} {
		path := filepath.Join(wall, filepath.FromSlash(name))
		require.NoError(b, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(b, os.WriteFile(path, []byte(text), 0o644))
	}
}
