package bench

import (
	"context"
	"encoding/json"
	"fmt"
	"image/color"
	"testing"
	"time"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
	"github.com/twodip/twodip/tiles/record"
)

// inChromium is the bench in a window of Chromium.
func (c *client) inChromium(t *testing.T, limit time.Duration) student {
	t.Helper()
	programs(t, chromium.Program)
	window, stop := chromium.Start(context.Background())
	ctx, late := context.WithTimeout(window, limit)
	t.Cleanup(func() { late(); stop() })
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900)))
	s := student{t, chromiumPhone{ctx}, c.base}
	require.NoError(t, s.in.Visit(c.address))
	return s
}

// drags presses the mouse on an element, moves it by so many pixels and lets go.
func (s student) drags(selector string, dx, dy float64) {
	s.t.Helper()
	ctx := s.in.(chromiumPhone).ctx
	var at [2]float64
	require.NoError(s.t, json.Unmarshal([]byte(s.sees(fmt.Sprintf(`(() => { const e = document.querySelector(%q); if (!e) return ""; e.scrollIntoView({ block: "center" }); const r = e.getBoundingClientRect(); return JSON.stringify([r.x + r.width / 2, r.y + r.height / 2]); })()`, selector))), &at))
	mouse := func(kind input.DispatchMouseEventType, x, y float64, held int64) {
		_, err := chromedp.Call(ctx, input.DispatchMouseEvent, input.DispatchMouseEventParams{Type: kind, X: x, Y: y, Button: "left", Buttons: held, ClickCount: 1})
		require.NoError(s.t, err)
	}
	mouse("mousePressed", at[0], at[1], 1)
	for i := range 5 {
		mouse("mouseMoved", at[0]+dx*float64(i+1)/5, at[1]+dy*float64(i+1)/5, 1)
	}
	mouse("mouseReleased", at[0]+dx, at[1]+dy, 0)
}

// TestACornerIsDraggedOnThePhotograph moves one by the mouse and by the arrow
// keys, and keeps it: what stands in tiles/by-hand.csv is what was shown.
func TestACornerIsDraggedOnThePhotograph(t *testing.T) {
	wall := planned(t)
	require.NoError(t, wall.WriteBytes("tiles/photos/7.jpg", photoOf(t, color.RGBA{150, 40, 30, 255})))
	c := open(t, wall.Dir())
	c.post("/photographs/read")
	c.done("/photographs")
	s := c.inChromium(t, 2*time.Minute)
	require.NoError(t, s.in.Visit(c.base+"/photographs?photo=7.jpg"))
	value := func(name string) string { return s.sees(`document.getElementById("one").elements.` + name + `.value`) }
	before := []string{value("x1"), value("y1"), value("x3"), value("y3")}
	assert.Equal(t, "4", s.sees(`document.querySelectorAll("#corners .handle").length`))
	assert.Equal(t, "false", s.sees(`String(document.getElementById("one").elements.drawn.checked)`))
	s.drags("#corners .handle", 30, 20)
	after := []string{value("x1"), value("y1"), value("x3"), value("y3")}
	assert.NotEqual(t, before[:2], after[:2], "it went with the mouse")
	assert.Equal(t, before[2:], after[2:], "the others stayed")
	assert.Equal(t, "true", s.sees(`String(document.getElementById("one").elements.drawn.checked)`))
	s.sees(`(document.querySelectorAll("#corners .handle")[2].focus(), "yes")`)
	require.NoError(t, s.in.Type(kb.ArrowRight))
	moved := value("x3")
	assert.NotEqual(t, after[2], moved, "and one with the keys")
	assert.Equal(t, s.sees(`document.querySelectorAll("#corners .handle")[2].getAttribute("cx")`), moved)
	s.taps("#one button.strong")
	require.Eventually(t, func() bool { return wall.Has(record.ByHandFile) }, 20*time.Second, 50*time.Millisecond)
	s.sees(`document.readyState === "complete" && document.getElementById("work-stop").hidden`)
	hands, err := record.ParseByHand([]byte(read(t, wall, record.ByHandFile)))
	require.NoError(t, err)
	require.Len(t, hands, 1)
	assert.Equal(t, after[:2], []string{fmt.Sprint(hands[0].Outline[0][0]), fmt.Sprint(hands[0].Outline[0][1])})
	assert.Equal(t, moved, fmt.Sprint(hands[0].Outline[2][0]))
}

// TestRowsAreDraggedAndCellsPasted pastes cells into the middle of the table,
// where they go right and down, and drags a row to another place, by the events
// that a browser gives a script for both; the list that is saved has them there.
func TestRowsAreDraggedAndCellsPasted(t *testing.T) {
	wall := glazed(t)
	c := open(t, wall.Dir())
	s := c.inChromium(t, 2*time.Minute)
	require.NoError(t, s.in.Visit(c.base+"/glazes"))
	s.taps(`[name="name.4"]`)
	s.sees(`(() => { const data = new DataTransfer(); data.setData("text/plain", "Pitch Pine\tbrown\tgloss\nNobody’s\t\tmatte\nSedge\tgreen\n");
		document.activeElement.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true })); return "pasted"; })()`)
	assert.Equal(t, "Pitch Pine|brown|gloss|Nobody’s||matte|Sedge|green|", s.sees(`[4, 5, 6].flatMap((i) => ["name", "color", "finish"].map((n) => document.querySelector('[name="' + n + "." + i + '"]').value)).join("|")`))
	assert.Equal(t, "PI", s.sees(`document.querySelector('[name="code.4"]').value`), "what was not pasted over stays")
	s.sees(`(() => { const grips = [...document.querySelectorAll(".grip")], data = new DataTransfer(), over = grips[1].closest("tbody").getBoundingClientRect();
		const send = (type, to, y) => to.dispatchEvent(new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true, clientX: over.x + 5, clientY: y }));
		send("dragstart", grips[4], 0); send("dragover", grips[1], over.y + 2); send("drop", grips[1], over.y + 2); send("dragend", grips[4], 0); return "dragged"; })()`)
	assert.Equal(t, "1 2 3 4 5 6", s.sees(`[...document.querySelectorAll(".grip")].slice(0, 6).map((g) => g.textContent).join(" ")`), "they are counted anew")
	s.sees(`document.querySelector('[name="code.6"]').value !== "" || (document.querySelector('[name="code.0"]').focus(), "")`)
	s.taps("#glazes .ways .strong")
	s.sees(`document.body.innerText.includes("Saved: 7 glazes")`)
	got := read(t, wall, "content/glazes.csv")
	assert.Regexp(t, `^code,name,color,finish\nQM,Quarry Milk(,,)?\nPI,Pitch Pine,brown,gloss\nLR,Lamp Rust(,,)?\nFG,Fen Glass(,,)?\nOH,Oat Husk(,,)?\nNO,Nobody’s,,matte\n[A-Z]+,Sedge,green,\n$`, got)
}
