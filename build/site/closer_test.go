package site

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

func TestAPhotoIsLookedAtCloser(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1024, 768)
	b.visit(fileURL(dir, "tile/7.html"))
	eval[any](b, `(document.querySelector('.closer-link').focus(), 1)`)
	b.press(kb.Enter)
	b.until(`document.querySelector('dialog.closer[open]')`)
	scale := func() float64 {
		return eval[float64](b, `Number(/scale\(([\d.]+)/.exec(document.querySelector('.closer img').style.transform)?.[1] || 1)`)
	}
	b.press("+", "+")
	assert.InDelta(t, 2.25, scale(), 0.01)
	b.press("-", "0")
	assert.InDelta(t, 1, scale(), 0.01)
	eval[any](b, `(document.querySelector('.closer').dispatchEvent(new WheelEvent('wheel', { deltaY: -1, clientX: 900, clientY: 100, cancelable: true })), 1)`)
	assert.InDelta(t, 1.2, scale(), 0.01)
	b.press(kb.Escape)
	b.until(`!document.querySelector('dialog') && document.activeElement.className === 'closer-link'`)
	b.quiet()
}

func TestWhereATileHangs(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1024, 768)
	b.visit(fileURL(dir, "tile/26.html"))
	b.do(chromedp.Click(chromedp.CSS(`.doors a[href$="#at=26"]`)))
	b.until(`location.pathname.endsWith('/index.html') && document.activeElement.textContent === '26'`)
	assert.True(t, eval[bool](b, `(() => { const r = document.activeElement.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight })()`), "in view")
	b.visit(fileURL(dir, "index.html"))
	eval[any](b, `(document.querySelector('a[href="tile/26.html"]').focus(), 1)`)
	b.press("s")
	b.until(`document.querySelector('.cell.picked a').textContent === '26'`)
	b.press("s")
	b.until(`!document.querySelector('.cell.picked') && document.getElementById('say').textContent.includes('off your shortlist')`)
	b.quiet()
}

// In forced colors the drawing that says which glaze went first stays to be seen.
func TestForcedColorsKeepTheOrder(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 1024, 768)
	call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}}})
	for _, name := range []string{"index.html", "tile/26.html"} {
		b.visit(fileURL(dir, name))
		ink := eval[string](b, `getComputedStyle(document.querySelector('.order .edge')).stroke`)
		ground := eval[string](b, `getComputedStyle(document.documentElement).backgroundColor`)
		assert.NotEqual(t, ground, ink, name)
		assert.Equal(t, eval[string](b, `getComputedStyle(document.querySelector('h1, h2')).color`), ink, "%s: drawn in the color of words", name)
	}
	b.quiet()
}

func TestTheMapOfColors(t *testing.T) {
	dir, wall := standingSite(t)
	b := openTab(t, 1366, 900)
	b.visit(fileURL(dir, "color.html"))
	b.until(`document.getElementById('map').width > 300`)
	eval[any](b, `(document.getElementById('map').focus(), 1)`)
	b.press(kb.ArrowRight)
	b.until(`/^Tile \d+, 1st .*±/.test(document.getElementById('map-says').textContent)`)
	b.press("+", "+", "+")
	b.until(`/ in the ring/.test(document.getElementById('map-says').textContent) && document.querySelectorAll('#map-found li').length > 0`)
	// A ring drawn over all of it holds every measured tile of the wall's own.
	eval[any](b, `(() => { const c = document.getElementById('map'), r = c.getBoundingClientRect(), at = (type, x, y) => c.dispatchEvent(new PointerEvent(type, { clientX: x, clientY: y, buttons: 1, pointerId: 1 }));
		const x = r.left + r.width / 2, y = r.top + r.height / 2; at('pointerdown', x, y); at('pointermove', x + r.width, y); at('pointerup', x + r.width, y); return 1 })()`)
	read := map[int]bool{}
	for _, r := range wall.Readings {
		read[int(r.Tile)] = true
	}
	b.until(`document.getElementById('map-says').textContent.startsWith('` + some(len(read)) + ` tiles in the ring')`)
	assert.Equal(t, 24, eval[int](b, `document.querySelectorAll('#map-found li').length`))
	assert.Regexp(t, `#near=.*%C2%B1`, eval[string](b, `document.getElementById('map-near').href`), "a mean of readings has a doubt")
	b.picture("map")
	b.press(kb.ArrowLeft, kb.Enter)
	b.until(`location.pathname.includes('/tile/')`)
	b.quiet()
}

// A color from somebody's own photo stands on the map with its doubt, and every
// tile that it may be is counted.
func TestTheMapShowsAColorWithItsDoubt(t *testing.T) {
	dir, wall := standingSite(t)
	b := openTab(t, 1366, 900)
	b.visit(fileURL(dir, "index.html#near=48+-8+-14+%C2%B1+12"))
	b.until(`!document.getElementById('to-map').hidden`)
	b.do(chromedp.Click(chromedp.ID("to-map")))
	b.until(`location.pathname.endsWith('/color.html') && document.querySelectorAll('#map-found li').length === 24`)
	may := 0
	for _, tile := range wall.Tiles {
		if r, ok := tiles.ColorOf(wall.Readings, tile.Number); ok && color.DE00(color.Lab{L: 48, A: -8, B: -14}, labOf(r)) <= together(r.Doubt, 12) {
			may++
		}
	}
	assert.Equal(t, "The dashed ring is the color you look for, ±\u00a012. "+some(may)+" tiles may be that color, as far as the photos tell. The nearest:", eval[string](b, `document.getElementById('map-says').textContent`))
	assert.Equal(t, nearestByHand(wall, color.Lab{L: 48, A: -8, B: -14})[:24], eval[[]int](b, `[...document.querySelectorAll('#map-found .number')].map(e => Number(e.textContent))`))
	assert.Contains(t, eval[string](b, `document.querySelector('#map-found .says').textContent`), "same")
	b.picture("map-near")
	b.quiet()
}
