package site

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"os"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/table"
)

func TestPiecesAreKeptAndTheLogTakesThem(t *testing.T) {
	dir, wall := standingSite(t)
	both(t, dir, func(t *testing.T, at func(string) string) {
		b := openTab(t, 1280, 900)
		b.visit(at("tile/13.html"))
		b.do(chromedp.SendKeys(chromedp.ID("keep-line"), "tall mug, \"thrown\"\r"))
		b.until(`document.getElementById('keep-says').textContent === 'Kept: tall mug, "thrown". 1 piece on your list.'`)
		b.visit(at("tile/1.html"))
		b.do(chromedp.SendKeys(chromedp.ID("keep-line"), "=1+1\r"))
		b.until(`document.getElementById('keep-says').textContent.startsWith('Kept')`)
		b.visit(at("kept.html"))
		b.until(`document.querySelectorAll('#kept-table tbody tr').length === 2`)
		b.picture("kept")
		csv := eval[string](b, `twodip.keptCSV(JSON.parse(localStorage.getItem('twodip/' + document.documentElement.dataset.wall + '/kept')))`)
		log, err := record.ReadPieces("my-pieces.csv", strings.NewReader("\ufeff"+csv), wall.Log)
		require.NoError(t, err)
		var pieces []tiles.Piece
		for p := range log.Each() {
			pieces = append(pieces, p)
		}
		require.Len(t, pieces, 2)
		assert.Equal(t, `tall mug, "thrown"`, pieces[0].ID)
		assert.Equal(t, wall.Tiles[12].Pair, pieces[0].Pair, "1st and 2nd as on the tile")
		assert.Equal(t, "after tile 13", pieces[0].Note)
		assert.Equal(t, tiles.Pair{First: wall.Tiles[0].First}, pieces[1].Pair)
		assert.Contains(t, csv, `"'=1+1"`, "no cell starts a formula")
		assert.Equal(t, "=1+1", pieces[1].ID, "and the log reads it back")
		b.do(chromedp.Click(chromedp.CSS("#kept-table button")))
		b.until(`document.querySelectorAll('#kept-table tbody tr').length === 1`)
		eval[any](b, `(localStorage.clear(), 1)`)
		b.quiet()
	})
}

func TestTheScriptGuardsCellsAsTablesDo(t *testing.T) {
	dir, _ := standingSite(t)
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "kept.html"))
	for _, s := range []string{"=1", "a,=1", "'=1", "-14.2", "−5", "＝x", "@a", "ok", " =1", "1;-x", "a\n+b"} {
		csv := eval[string](b, `twodip.keptCSV([{ piece: `+asJSON(t, s)+`, date: '', codes: ['A'], tile: '1' }])`)
		assert.Contains(t, csv, `"`+table.Guard(s)+`"`, s)
	}
}

func TestEveryKindOfPagePrints(t *testing.T) {
	_, err := exec.LookPath("pdftotext")
	needs(t, err != nil, "pdftotext (poppler-utils)")
	dir, _ := standingSite(t)
	b := openTab(t, 1280, 900)
	for name, want := range map[string]string{
		"index.html":              "1st Quarry Milk",
		"tile/13.html":            "1st Lamp Rust → 2nd Quarry Milk",
		"glaze/QA.html":           "As first",
		"order.html":              "How much order matters",
		"page/safety.html":        "Local codes",
		"compare.html#tiles=7,12": "Tiles 7 and 12",
	} {
		b.visit(fileURL(dir, name))
		b.until(`document.readyState === 'complete'`)
		pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF())
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "page.pdf")
		require.NoError(t, os.WriteFile(file, pdf, 0o644))
		keepPDF(t, name, pdf)
		text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
		require.NoError(t, err)
		folded := strings.Join(strings.Fields(string(text)), " ")
		assert.Contains(t, folded, want, name)
		assert.NotContains(t, folded, "Surround:", "%s: what only works on a screen is not printed", name)
	}
}

// keepPDF keeps a printed page for a person to look at.
func keepPDF(t *testing.T, name string, pdf []byte) {
	if dir := os.Getenv("TWODIP_LOOK"); dir != "" {
		name, _, _ = strings.Cut(strings.ReplaceAll(name, "/", "-"), "#")
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+".pdf"), pdf, 0o644))
	}
}
