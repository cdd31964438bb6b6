package bench

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// TestTheBenchOfSixtyGlazes opens every page of a wall of 3,600 tiles with as many
// readings, and types into its glaze table, with TWODIP_LONG=1. How long it took
// is only said.
func TestTheBenchOfSixtyGlazes(t *testing.T) {
	if os.Getenv("TWODIP_LONG") == "" {
		t.Skip("TWODIP_LONG=1 opens a large wall")
	}
	dir := newWall(t)
	var list strings.Builder
	list.WriteString("code,name,color,finish\n")
	for i := range 60 {
		fmt.Fprintf(&list, "%c%c,Glaze number %d,,\n", 'A'+i/26, 'A'+i%26, i+1)
	}
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(list.String())))
	_, err := run.Plan(dir, run.PlanWish{})
	require.NoError(t, err)
	ts, err := record.ReadTiles(dir)
	require.NoError(t, err)
	require.Len(t, ts, 3600)
	var readings []tiles.Reading
	for _, tile := range ts {
		r := tiles.Reading{Tile: tile.Number, Zone: tiles.ZoneWhole, Photo: fmt.Sprintf("%d.jpg", tile.Number), Carried: tile.Pair, Doubt: 3}
		r.L, r.A, r.B = 20+float64(tile.Number%60), float64(tile.Number%20), float64(tile.Number%30)
		readings = append(readings, r)
	}
	require.NoError(t, record.WriteReadings(dir, readings))
	c := open(t, dir.Dir())
	s := c.inChromium(t, 10*time.Minute)
	for _, r := range rooms() {
		require.NoError(t, s.in.Visit(c.base+r.path))
		paint := s.sees(`new Promise((done) => { const look = () => { const p = performance.getEntriesByName("first-contentful-paint")[0]; p ? done(Math.round(p.startTime)) : setTimeout(look, 20); }; look(); })`)
		answer := s.sees(`Math.round(performance.getEntriesByType("navigation")[0].responseStart)`)
		t.Logf("%s: first paint after %s ms, of which the answer took %s ms", r.path, paint, answer)
	}

	require.NoError(t, s.in.Visit(c.base+"/glazes"))
	s.taps(`[name="name.30"]`)
	s.sees(`(window.longest = 0, new PerformanceObserver((l) => { for (const e of l.getEntries()) longest = Math.max(longest, e.duration); }).observe({ type: "longtask" }),
		window.slowest = 0, new PerformanceObserver((l) => { for (const e of l.getEntries()) slowest = Math.max(slowest, e.duration); }).observe({ type: "event", durationThreshold: 16 }), "watched")`)
	for _, letter := range " in the light of the north window" {
		require.NoError(t, s.in.Type(string(letter)))
		time.Sleep(60 * time.Millisecond)
	}
	time.Sleep(2 * time.Second) // what is wrong is said after the last letter
	t.Logf("typing: longest task %s ms, slowest letter %s ms (0 = under 16)", s.sees(`String(Math.round(longest))`), s.sees(`String(Math.round(slowest))`))
	assert.Equal(t, "Glaze number 31 in the light of the north window", s.sees(`document.querySelector('[name="name.30"]').value`))
}
