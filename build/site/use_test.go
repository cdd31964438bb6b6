package site

import (
	"context"
	"fmt"
	"image"
	imgcolor "image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// These tests use the site as a person does, in a browser.

var standing struct {
	sync.Once
	dir  string
	wall tiles.Wall
}

// standingSite is the site of an invented wall of twelve glazes, made once.
func standingSite(t *testing.T) (string, tiles.Wall) {
	standing.Do(func() {
		standing.wall = invent(12)
		dir, err := os.MkdirTemp("", "twodip-site-")
		require.NoError(t, err)
		standing.dir = filepath.Join(dir, "site")
		_, err = Build(context.Background(), standing.dir, Input{Wall: standing.wall, Pages: builtPages(t), Pictures: inventPictures(t, standing.wall, 144)})
		require.NoError(t, err)
	})
	return standing.dir, standing.wall
}

// found lists the numbers of the tiles that the page shows as found, all of them.
func found(b *tab) []int {
	b.until(`document.getElementById('shown').ariaBusy !== 'true'`)
	return eval[[]int](b, `[...document.querySelectorAll('#shown .number')].map(e => Number(e.textContent))`)
}

func TestFindByWords(t *testing.T) {
	dir, wall := standingSite(t)
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 1440, 1000)
		b.visit(at("index.html"))
		b.do(chromedp.SendKeys(chromedp.ID("words"), "rust → milk"))
		b.until(`document.getElementById('found-count').textContent === '1 of 144 tiles'`)
		assert.Equal(t, []int{13}, found(b), "1st Lamp Rust → 2nd Quarry Milk, and not the other order")
		b.until(`location.hash === '#words=rust+%E2%86%92+milk'`)

		b.visit(at("index.html#words=rust"))
		b.until(`!document.getElementById('found').hidden`)
		rust := wall.Glazes[1].Code
		for k, n := range found(b) {
			tile, _ := wall.Tile(tiles.Number(n))
			assert.Equal(t, k < 23, tile.Has(rust), "the glaze of that name first, then what measured that color: %d", n)
		}
		b.visit(at("index.html#words=rsut"))
		b.until(`document.getElementById('hints').textContent.includes('Nothing is called “rsut”')`)
		assert.Len(t, found(b), 23, "a typo in a name is forgiven")

		for text, want := range map[string]int{"13": 13, "t13": 13, "013": 13, "tile 13": 13} {
			b.visit(at("index.html#words=" + strings.ReplaceAll(text, " ", "+")))
			b.until(`!document.getElementById('found').hidden`)
			assert.Equal(t, want, found(b)[0], text)
			assert.Len(t, found(b), 1, "%s: a number is exact, never the beginning of 130", text)
		}
		b.visit(at("index.html#words=green"))
		b.until(`!document.getElementById('found').hidden`)
		first, _ := tiles.ColorOf(wall.Readings, tiles.Number(found(b)[0]))
		assert.Contains(t, color.Name(labOf(first), 3), "green", "a measured color comes before a bucket's name")
		code := wall.Glazes[1].Code
		b.visit(at("index.html#words=" + code))
		b.until(`!document.getElementById('found').hidden`)
		assert.Len(t, found(b), 23, "a code finds its own glaze")
		b.visit(at("index.html#words=zzqxv"))
		b.until(`document.getElementById('found-count').textContent === '0 of 144 tiles'`)
		b.quiet()
	})
}

func TestAnEmptySearchSaysHowToWiden(t *testing.T) {
	dir, wall := standingSite(t)
	b := openTab(t, 1440, 1000)
	b.visit(fileURL(dir, "index.html#words=rust+matte&first="+wall.Glazes[0].Code))
	b.until(`document.querySelectorAll('#hints button').length === 3`)
	hint := eval[string](b, `document.querySelector('#hints button').textContent`)
	var left int
	_, err := fmt.Sscanf(hint, "Without “rust”: %d tiles", &left)
	require.NoError(t, err, hint)
	b.do(chromedp.Click(chromedp.CSS("#hints button")))
	b.until(fmt.Sprintf(`document.getElementById('found-count').textContent === '%d of 144 tiles'`, left))
	option := eval[string](b, `document.querySelector('#second option:nth-child(3)').textContent`)
	assert.Regexp(t, `^Quarry Milk \(\d+\)$`, option, "a filter counts what it leaves")
	b.quiet()
}

func TestFindByColorIsExact(t *testing.T) {
	dir, wall := standingSite(t)
	target := color.Lab{L: 48, A: -8, B: -14}
	want := nearestByHand(wall, target)
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 1440, 1000)
		b.visit(at("index.html#near=48+-8+-14"))
		b.until(`document.querySelectorAll('#shown li').length === 24`)
		assert.Equal(t, want[:24], found(b))
		b.do(chromedp.SetValue(chromedp.ID("near"), "tile 7"))
		b.do(chromedp.SendKeys(chromedp.ID("near"), " "))
		b.until(`document.getElementById('target').textContent.includes('L* 47.1')`)
		seven, _ := tiles.ColorOf(wall.Readings, 7)
		var rest []int
		for _, n := range nearestByHand(wall, labOf(seven)) {
			if n != 7 {
				rest = append(rest, n)
			}
		}
		assert.Equal(t, rest[:24], found(b), "more like this tile")
		b.visit(at("index.html#near=nonsense"))
		b.until(`document.getElementById('hints').textContent.includes('no color I can read')`)
		b.quiet()
	})
}

// nearestByHand sorts the measured tiles by ΔE00 from a color, as Go reckons it.
func nearestByHand(w tiles.Wall, target color.Lab) []int {
	type near struct {
		n int
		d float64
	}
	var all []near
	for _, tile := range w.Tiles {
		if r, ok := tiles.ColorOf(w.Readings, tile.Number); ok {
			all = append(all, near{int(tile.Number), color.DE00(target, labOf(r))})
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].d < all[j].d || all[i].d == all[j].d && all[i].n < all[j].n })
	numbers := make([]int, len(all))
	for i, a := range all {
		numbers[i] = a.n
	}
	return numbers
}

func TestAPhotoIsSampledOnTheDevice(t *testing.T) {
	dir, _ := standingSite(t)
	photo := filepath.Join(t.TempDir(), "loved.png")
	writeHalves(t, photo, imgcolor.RGBA{90, 127, 145, 255}, imgcolor.RGBA{180, 60, 40, 255})
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 1440, 1000)
		b.visit(at("index.html"))
		b.do(chromedp.SetUploadFiles(chromedp.ID("photo"), []string{photo}))
		b.until(`document.activeElement.id === 'sample'`)
		before := len(b.requests)
		b.press(strings.Repeat(kb.ArrowLeft, 30))
		want := color.FromSRGB(90, 127, 145)
		b.until(fmt.Sprintf(`Math.abs(Number(document.getElementById('near').value.split(' ')[1]) - %.3f) < 1`, want.A))
		got := eval[[]float64](b, `document.getElementById('near').value.split(' ').map(Number)`)
		assert.Less(t, color.DE00(want, color.Lab{L: got[0], A: got[1], B: got[2]}), 0.5, "the left half, by the arrow keys alone")
		b.do(chromedp.MouseClickXY(0, 0))
		eval[any](b, `(() => { const c = document.getElementById('sample'), r = c.getBoundingClientRect(); c.setPointerCapture = () => {};
			c.dispatchEvent(new PointerEvent('pointerdown', { clientX: r.left + r.width * 0.8, clientY: r.top + r.height / 2, pointerId: 1 })); return 1 })()`)
		want = color.FromSRGB(180, 60, 40)
		b.until(fmt.Sprintf(`Math.abs(Number(document.getElementById('near').value.split(' ')[1]) - %.3f) < 1`, want.A))
		for _, r := range b.requests[before:] {
			assert.Contains(t, r, "/picture/", "only the found tiles' photos are asked for; the photo goes nowhere")
		}
		b.quiet()
	})
}

// writeHalves makes a picture of two colors, left and right.
func writeHalves(t *testing.T, name string, left, right imgcolor.RGBA) {
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			c := left
			if x >= 200 {
				c = right
			}
			img.SetRGBA(x, y, c)
		}
	}
	f, err := os.Create(name)
	require.NoError(t, err)
	defer f.Close()
	require.NoError(t, png.Encode(f, img))
}

func TestTheWallByKeyboardAndRemote(t *testing.T) {
	dir, _ := standingSite(t)
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 1440, 1000)
		b.visit(at("index.html"))
		focus := func() string { return eval[string](b, `document.activeElement.textContent`) }
		b.press(kb.PageDown)
		assert.Equal(t, "BODY", eval[string](b, `document.activeElement.tagName`), "the page scrolls until the wall has the focus")
		b.until(`[...document.querySelectorAll('.cell a')].filter(a => a.tabIndex === 0).length === 1`)
		assert.Equal(t, "26, 1st Kiln Moss → 2nd Lamp Rust", eval[string](b, `document.querySelector('a[href="tile/26.html"]').getAttribute('aria-label')`))
		eval[any](b, `(document.querySelector('.cell a').focus(), 1)`)
		b.press(kb.PageDown, kb.ArrowDown)
		assert.Equal(t, "14", focus())
		b.press(kb.ArrowRight, "x")
		assert.Equal(t, "26", focus(), "X: 1st Lamp Rust → 2nd Kiln Moss becomes the other order")
		b.press(kb.End)
		assert.Equal(t, "36", focus())
		b.press(kb.PageDown, kb.PageUp, kb.Home)
		assert.Equal(t, "25", focus())
		b.press(kb.ArrowDown, kb.End, kb.ArrowLeft)
		assert.Equal(t, "47", focus())
		b.press(kb.Enter)
		b.until(`location.pathname.endsWith('/tile/47.html') && document.readyState === 'complete'`)
		b.press("x")
		assert.True(t, eval[bool](b, `location.pathname.endsWith('/tile/47.html')`), "a letter does nothing while the tile has no focus")
		eval[any](b, `(document.querySelector('.doors a').focus(), 1)`)
		b.press("x")
		b.until(`location.pathname.endsWith('/tile/124.html')`)
		b.quiet()
	})
}

func TestAnEmptyPlaceTakesTheFocusAndSaysWhy(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1440, 1000)
	b.visit(fileURL(dir, "index.html"))
	eval[any](b, `(document.querySelector('a[href="tile/52.html"]').focus(), 1)`)
	b.press(kb.ArrowRight)
	assert.Equal(t, "53 skipped: both run", eval[string](b, `document.activeElement.closest('.cell').textContent.trim()`))
}

func TestReadingWithoutJavaScript(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1440, 1000)
	b.scripts(false)
	for _, name := range []string{"index.html", "tile/7.html", "glaze/QA.html", "color.html", "order.html", "compare.html", "shortlist.html", "room.html", "kept.html", "page/safety.html"} {
		b.visit(fileURL(dir, name))
		b.scripts(true) // only to ask; the page's own scripts have not run
		assert.False(t, eval[bool](b, `typeof twodip !== 'undefined'`), name)
		assert.Zero(t, eval[int](b, `[...document.querySelectorAll('form, button, canvas')].filter(e => e.offsetParent !== null).length`), "%s shows what cannot work", name)
		assert.Positive(t, eval[int](b, `document.querySelector('main').innerText.trim().length`), name)
		b.scripts(false)
	}
	b.picture("no-script")
	b.quiet()
}

func TestAPhoneScrollsOneWay(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 390, 844)
	for _, name := range pages(t, dir) {
		if strings.HasPrefix(name, "tile/") && name != "tile/7.html" && name != "tile/53.html" || strings.HasPrefix(name, "glaze/") && name != "glaze/QA.html" {
			continue
		}
		b.visit(fileURL(dir, name))
		assert.LessOrEqual(t, eval[int](b, `document.documentElement.scrollWidth`), 390, "%s is wider than a phone", name)
		b.picture("phone-" + strings.ReplaceAll(name, "/", "-"))
	}
	b.quiet()
}

func TestTheRoomSetsItsLettersForTheBackRow(t *testing.T) {
	dir, _ := standingSite(t)
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 1920, 1080)
		b.visit(at("room.html#tile=80&back=10&high=2"))
		b.press(kb.Tab)
		b.do(chromedp.Focus(chromedp.ID("back")))
		b.press(kb.Enter)
		b.until(`!document.getElementById('stage').hidden`)
		// Common practice for projection: a letter at least the distance ÷ 200
		// high; 10 m → 50 mm of a picture 2 m high → 27 px of 1080.
		smallest := eval[float64](b, `(() => { let least = 1e9; const c = document.createElement('canvas').getContext('2d');
			for (const p of document.querySelectorAll('#stage-tiles p')) { const s = getComputedStyle(p); c.font = s.fontWeight + ' ' + s.fontSize + ' ' + s.fontFamily;
			least = Math.min(least, c.measureText('H').actualBoundingBoxAscent); } return least })()`)
		assert.GreaterOrEqual(t, math.Round(10*smallest)/10, 27.0)
		assert.False(t, eval[bool](b, `(() => { const s = document.getElementById('stage'); return s.scrollWidth > s.clientWidth || s.scrollHeight > s.clientHeight })()`), "nothing is cut")
		b.picture("room")
		number := func() string {
			return eval[string](b, `document.querySelector('#stage-tiles .stage-number')?.textContent || ''`)
		}
		assert.Equal(t, "80", number())
		b.press(kb.PageDown, kb.PageDown)
		assert.Equal(t, "83", number(), "82 is not fired yet: it is passed over")
		b.press(kb.PageUp, "x")
		assert.Equal(t, "103", number(), "the other order of 81")
		b.press(kb.ArrowRight)
		assert.Equal(t, "83", number(), "the round goes on where it was left")
		b.press("b")
		assert.Empty(t, number(), "nothing but the surround")
		b.press(".", "g")
		assert.Equal(t, "rgb(118, 118, 118)", eval[string](b, `getComputedStyle(document.getElementById('stage')).backgroundColor`))
		b.press(kb.Escape)
		b.until(`document.getElementById('stage').hidden`)
		b.quiet()
	})
}

func TestCompareTwoToFour(t *testing.T) {
	dir, wall := standingSite(t)
	b := openTab(t, 1440, 1000)
	b.visit(fileURL(dir, "compare.html#tiles=7"))
	b.do(chromedp.SendKeys(chromedp.ID("add-tile"), "12\r"))
	b.until(`location.hash === '#tiles=7,12'`)
	one, _ := tiles.ColorOf(wall.Readings, 7)
	two, _ := tiles.ColorOf(wall.Readings, 12)
	want := fmt.Sprintf("Tiles 7 and 12: ΔE00 %.1f, ", color.DE00(labOf(one), labOf(two)))
	b.until(`document.querySelector('#apart-list li')?.textContent.startsWith('` + want + `')`)
	b.do(chromedp.SendKeys(chromedp.ID("add-tile"), "999\r"))
	b.until(`document.getElementById('compare-says').textContent === 'The wall has no tile 999.'`)
	b.quiet()
}

func TestTheSurroundIsThePersonsChoice(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1440, 1000)
	ground := func() string { return eval[string](b, `getComputedStyle(document.documentElement).backgroundColor`) }
	for _, scheme := range []string{"light", "dark"} {
		call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		b.visit(fileURL(dir, "tile/7.html"))
		assert.Equal(t, "rgb(48, 48, 48)", ground(), "the system's theme changes nothing")
	}
	b.do(chromedp.Click(chromedp.CSS(`[data-surround-to="grey"]`)))
	assert.Equal(t, "rgb(118, 118, 118)", ground())
	b.visit(fileURL(dir, "index.html"))
	assert.Equal(t, "rgb(118, 118, 118)", ground(), "kept for the next page")
	eval[any](b, `(localStorage.clear(), 1)`)
	b.quiet()
}
