package door

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
)

// slow gives the screen a slow network: 400 ms of latency and 400 kbit/s.
func (s screen) slow() {
	s.t.Helper()
	const perSecond = 400_000 / 8
	_, err := chromedp.Call(s.ctx, network.Enable, network.EnableParams{})
	require.NoError(s.t, err)
	_, err = chromedp.Call(s.ctx, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
		MatchedNetworkConditions: []*network.Conditions{{Latency: 400, DownloadThroughput: perSecond, UploadThroughput: perSecond}}})
	require.NoError(s.t, err)
}

// TestFromATileToASavedRow counts the taps from a tile's page, as its label
// opens it, to the number of the piece, and the bytes of the form, on a slow
// network. How long it took is only said: that is the machine's as well.
func TestFromATileToASavedRow(t *testing.T) {
	wall := studio(t)
	_, err := produce.Site(t.Context(), wall, produce.SiteWish{})
	require.NoError(t, err)
	s := newScreen(t, 390, 844)
	d, p := openDoor(t, Wish{Dir: wall})
	s.visit(d.Address())
	s.visit(p.base + "/tile/3.html")
	s.slow()
	taps, begun := 0, time.Now()
	tap := func(selector string) {
		s.tap(selector)
		taps++
		time.Sleep(400 * time.Millisecond) // two taps at once are a double tap
	}
	tap(`.ways a`)
	s.until(`!!document.getElementById("maker") && document.readyState === "complete"`)
	bytes := ask[int](s, `[...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")].reduce((n, e) => n + e.transferSize, 0)`)
	paint := ask[float64](s, `new Promise(done => { const look = () => { const p = performance.getEntriesByName("first-contentful-paint")[0]; p ? done(p.startTime) : setTimeout(look, 50); }; look(); })`)
	keepPicture(s, "door-phone-form.png")
	tap("#maker")
	s.press("ab")
	tap("#what")
	s.press("small blue bowl")
	tap("#foot")
	tap("#piece button")
	s.until(`document.querySelector("h1 .number")?.innerText === "1"`)
	t.Logf("slow network: %d taps, %d bytes, first paint %.0f ms, all in %v with a script's fingers", taps, bytes, paint, time.Since(begun).Round(10*time.Millisecond))
	assert.Positive(t, bytes)
	assert.LessOrEqual(t, bytes, 30_000)
	assert.LessOrEqual(t, taps, 6)
	rows := rowsOf(t, wall)
	last := rows[len(rows)-1]
	assert.Equal(t, []string{"ab", "small blue bowl", "wiped"}, []string{last["maker"], last["note"], last["foot"]})
}

// TestUnloadingByTaps says how every piece of a firing came out, one in five
// with a fault and its zone. With TWODIP_LONG=1 it is a hundred pieces.
func TestUnloadingByTaps(t *testing.T) {
	pieces := 20
	if os.Getenv("TWODIP_LONG") != "" {
		pieces = 100
	}
	wall := studio(t)
	var log strings.Builder
	log.WriteString("piece,date,first,second,load,shelf\n")
	for i := range pieces {
		fmt.Fprintf(&log, "K%03d,2026-03-02,QM,FG,G99,top\n", i)
	}
	require.NoError(t, wall.WriteBytes(record.LogFile, []byte(log.String())))
	s := newScreen(t, 390, 844)
	d, p := openDoor(t, Wish{Dir: wall})
	s.visit(d.Address())
	s.visit(p.base + "/kiln?load=G99&shelf=top")
	good, faulty, most := 0, 0, 0
	begun := time.Now()
	for i := range pieces {
		if i%5 != 4 {
			s.tap(fmt.Sprintf(`[aria-label="good: piece K%03d"]`, i))
			good++
		} else {
			s.tap(fmt.Sprintf(`[aria-label="fault: piece K%03d"]`, i))
			s.until(`!!document.getElementById("z2")`)
			if faulty == 0 {
				drawn := ask[int](s, `[...document.querySelectorAll(".faults use")].filter(e => e.getBBox().width > 20).length`)
				assert.Len(t, logbook.Words, drawn, "every fault has a picture")
				keepPicture(s, "door-phone-fault.png")
			}
			s.tap(`label[for="z2"]`)
			s.tap(`button[value="crawling"]`)
			faulty += 3
		}
		s.until(fmt.Sprintf(`!!document.getElementById("pieces") && !document.querySelector('[aria-label="good: piece K%03d"]') && document.readyState === "complete"`, i))
		most = max(most, ask[int](s, `performance.getEntriesByType("navigation")[0].transferSize`))
	}
	t.Logf("%d pieces: %d taps for %d good ones, %d for %d faulty ones, pages of %d bytes at most, in %v with a script's fingers",
		pieces, good, pieces-pieces/5, faulty, pieces/5, most, time.Since(begun).Round(time.Second))
	assert.LessOrEqual(t, good, 3*(pieces-pieces/5))
	assert.LessOrEqual(t, faulty, 6*(pieces/5))
	for i, row := range rowsOf(t, wall) {
		want := []string{"good", "", ""}
		if i%5 == 4 {
			want = []string{"fault", "crawling", "overlap"}
		}
		assert.Equal(t, want, []string{row["result"], row["faults"], row["zone"]}, row["piece"])
	}
}
