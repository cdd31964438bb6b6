package door

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
)

// held holds what the screen shows to its width, at both sizes of letters, and
// against all rules of axe-core; with TWODIP_LOOK it keeps a picture.
func (s screen) held(state string) {
	s.t.Helper()
	for _, size := range []string{"100%", "200%"} {
		ask[any](s, `(document.documentElement.style.fontSize = "`+size+`", 1)`)
		assert.LessOrEqual(s.t, ask[int](s, `document.documentElement.scrollWidth`), 320, "%s at %s", state, size)
	}
	ask[any](s, `(document.documentElement.style.fontSize = "", 1)`)
	keepPicture(s, "door-"+state+".png")
	axe, err := os.ReadFile(filepath.Join(os.Getenv("TWODIP_NODE_MODULES"), "axe-core", "axe.min.js"))
	if err != nil {
		s.t.Log("axe-core is missing: only the width is checked here")
		return
	}
	ask[any](s, string(axe)+"; 1")
	var wrong []struct {
		ID, Help string
		Nodes    []struct{ HTML string }
	}
	require.NoError(s.t, json.Unmarshal([]byte(ask[string](s, `axe.run(document, { resultTypes: ['violations'] }).then(r => JSON.stringify(r.violations))`)), &wrong))
	assert.Empty(s.t, wrong, state)
}

// TestTheDoorsPagesFitAndAreAccessible goes through every page of the door in
// every state that it has.
func TestTheDoorsPagesFitAndAreAccessible(t *testing.T) {
	wall := studio(t)
	s := newScreen(t, 320, 640)
	d, p := openDoor(t, Wish{Dir: wall})
	s.visit(d.Address())
	s.held("empty")
	_, err := produce.Site(t.Context(), wall, produce.SiteWish{})
	require.NoError(t, err)
	_, _ = p.post(t, "/log", "key", "a", "first", "SF", "second", "HG", "maker", "Zq")
	_, _ = p.post(t, "/log", "key", "b", "first", "SF", "second", "HG", "maker", "Zq")
	_, _ = p.post(t, "/kiln", "piece", "1", "load", "G99", "shelf", "top")
	for _, one := range [][2]string{{"choose", "/piece"}, {"form", "/piece?first=SF&second=HG"}, {"one-coat", "/piece?first=SF"}, {"mine", "/mine"}, {"mine-found", "/mine?piece=1"}, {"mine-none", "/mine?piece=99"},
		{"kiln", "/kiln"}, {"kiln-load", "/kiln?load=G99"}, {"kiln-shelf", "/kiln?load=G99&shelf=top"}, {"kiln-fault", "/kiln?load=G99&fault=1"}, {"lost", "/nothing.html"}} {
		s.visit(p.base + one[1])
		s.held(one[0])
	}
	s.visit(p.base + "/kiln?load=G99")
	s.send(`form[action="/kiln"]:has(input[value="2"]) button`, `document.body.innerText.includes("A wrong tap?")`)
	s.held("kiln-back")
	s.visit(p.base + "/piece?first=SF&second=HG")
	s.send("#piece button", `!!document.getElementById("saved")`)
	s.held("saved")
	s.visit(p.base + "/piece?first=SF&second=HG")
	ask[any](s, `(document.getElementById("maker").value = "a\u0001b", 1)`)
	s.send("#piece button", `!!document.querySelector(".wrong")`)
	s.held("refused")
	s.visit(p.base + "/mine")
	assert.False(t, ask[bool](s, `document.getElementById("own").hidden`))
	s.held("mine-own")

	settings, err := os.ReadFile(wall.Path("wall.yaml"))
	require.NoError(t, err)
	require.NoError(t, wall.WriteBytes("wall.yaml", []byte("tiles: [")))
	s.until(`fetch("/piece").then(r => r.status === 503)`)
	s.visit(p.base + "/piece")
	s.held("sorry")
	require.NoError(t, wall.WriteBytes("wall.yaml", settings))

	locked, q := openDoor(t, Wish{Dir: wall, Word: "slip"})
	s.visit(locked.Address())
	for state, path := range map[string]string{"word-form": "/piece?first=SF", "word-kiln": "/kiln"} {
		s.visit(q.base + path)
		s.held(state)
	}
	ask[any](s, `(document.getElementById("word").value = "slop", 1)`)
	s.send("main button", `document.body.innerText.includes("not the word")`)
	s.held("word-wrong")
}

// send presses a button and waits for what comes of it.
func (s screen) send(button, until string) {
	s.t.Helper()
	ask[any](s, `(document.querySelector(`+quoted(button)+`).click(), 1)`)
	s.until(until)
}

// tabTo goes on by the Tab key alone until the element has the focus, and looks
// whether anybody can see that it has.
func (s screen) tabTo(selector string) {
	s.t.Helper()
	for range 60 {
		s.press(kb.Tab)
		if ask[bool](s, `!!document.activeElement?.matches(`+quoted(selector)+`)`) {
			assert.Equal(s.t, "solid", ask[string](s, `getComputedStyle(document.activeElement).outlineStyle`), selector)
			return
		}
	}
	require.Fail(s.t, "the keyboard does not come there", selector)
}

// TestTheDoorWorksByKeyboardAlone writes a piece down, loads it, says the fault,
// and takes it back, by Tab, Space, Enter, the arrows and letters.
func TestTheDoorWorksByKeyboardAlone(t *testing.T) {
	wall := studio(t)
	s := newScreen(t, 390, 844)
	d, p := openDoor(t, Wish{Dir: wall})
	s.visit(d.Address())
	s.visit(p.base + "/piece")
	s.tabTo("#first")
	s.press("Q")
	s.tabTo("#second")
	s.press("F")
	s.tabTo("main form:last-of-type button")
	s.press(kb.Enter)
	s.until(`!!document.getElementById("maker")`)
	s.tabTo("#maker")
	s.press("Zq")
	s.tabTo("#foot")
	s.press(" ")
	s.tabTo("#piece button")
	s.press(kb.Enter)
	s.until(`document.querySelector("h1 .number")?.innerText === "1"`)
	last := func() map[string]string { rows := rowsOf(t, wall); return rows[len(rows)-1] }
	assert.Equal(t, []string{"QM", "FG", "Zq", "wiped"}, []string{last()["first"], last()["second"], last()["maker"], last()["foot"]})

	s.visit(p.base + "/kiln")
	s.tabTo("#load")
	s.press("G99")
	s.press(kb.Enter)
	s.until(`document.getElementById("pieces")?.innerText.includes("G99")`)
	s.tabTo(`button[aria-label="load it: piece 1"]`)
	s.press(kb.Enter)
	s.until(`document.body.innerText.includes("into load G99")`)
	s.tabTo(`a[aria-label="fault: piece 1"]`)
	s.press(kb.Enter)
	s.until(`!!document.getElementById("z3")`)
	s.tabTo("#z3")
	s.press(" ")
	s.press(kb.ArrowDown)
	s.tabTo(`button[value="crawling"]`)
	s.press(kb.Enter)
	s.until(`document.body.innerText.includes("A wrong tap?") && document.body.innerText.includes("crawling")`)
	assert.Equal(t, []string{"G99", "fault", "crawling", "overlap"}, []string{last()["load"], last()["result"], last()["faults"], last()["zone"]})
	s.tabTo(`button[aria-label="take it back: piece 1, crawling"]`)
	s.press(kb.Enter)
	s.until(`!!document.querySelector('[aria-label="good: piece 1"]')`)
	assert.True(t, strings.TrimSpace(last()["result"]) == "")
}
