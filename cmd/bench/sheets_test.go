package bench

import (
	"archive/zip"
	"bytes"
	"context"
	"net/http"
	"net/url"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/run"
)

// done waits until the long work has ended, and is the page that says so.
func (c *client) done(path string) page {
	c.t.Helper()
	for range 1200 {
		p := c.get(path)
		if _, going := p.Find("#work-stop").Attr("hidden"); going {
			return p
		}
		time.Sleep(50 * time.Millisecond)
	}
	c.t.Fatal("the work does not end")
	return page{}
}

func TestSheetsAreLookedAtTickedAndMadeAsTheCommandMakesThem(t *testing.T) {
	dir := glazed(t)
	_, err := run.Plan(dir, run.PlanWish{})
	require.NoError(t, err)
	c := open(t, dir.Dir())
	p := c.get("/sheets")
	for range 200 {
		if p.Find("#drawing").Length() == 0 {
			break
		}
		time.Sleep(100 * time.Millisecond)
		p = c.get("/sheets")
	}
	require.Contains(t, p.main(), "Tile labels 2 pages of Letter")
	_, ticked := p.Find(`input[value="labels"]`).Attr("checked")
	require.True(t, ticked)
	_, ticked = p.Find(`input[value="grid"]`).Attr("checked")
	require.False(t, ticked, "the big wall grid is a wish")
	require.Regexp(t, `Wall grid \d+ pages of Letter`, p.main())
	_, none := p.Find(`input[value="trace"]`).Attr("disabled")
	require.True(t, none, "a log without faults")
	require.False(t, dir.Has("build/print/labels.pdf"), "looking writes nothing")

	picture := c.get(p.Find(".pages img").First().AttrOr("src", ""))
	require.Contains(t, picture.text, "<svg")
	require.Contains(t, picture.text, "Quarry Milk")
	require.Equal(t, http.StatusUnprocessableEntity, c.get("/sheets/picture?sheet=labels&page=99").status)
	require.Equal(t, http.StatusUnprocessableEntity, c.get("/sheets/picture?sheet=..%2f..%2fwall.yaml&page=1").status)
	require.Equal(t, http.StatusUnprocessableEntity, c.get("/sheets/pdf?sheet=..%2f..%2fwall.yaml").status)

	c.send(p, `form[action="/sheets/print"]`, "/sheets/print", url.Values{"sheet": {"labels", "dips"}})
	p = c.done("/sheets")
	require.Contains(t, p.text, "2 sheets, ")
	require.Equal(t, 2, p.Find(`a[href^="/sheets/pdf"]:not([href*=save])`).Length())
	made := c.get("/sheets/pdf?sheet=labels").text

	other := glazed(t)
	_, err = run.Plan(other, run.PlanWish{})
	require.NoError(t, err)
	_, err = produce.Print(context.Background(), other, produce.PrintWish{Sheets: []string{"labels"}, Date: time.Now().Format(time.DateOnly)})
	require.NoError(t, err)
	require.Equal(t, read(t, other, "build/print/labels.pdf"), made)

	packed := c.get("/sheets/zip").text
	z, err := zip.NewReader(bytes.NewReader([]byte(packed)), int64(len(packed)))
	require.NoError(t, err)
	require.Len(t, z.File, 2)
}

func TestNoSheetIsTicked(t *testing.T) {
	c := open(t, glazed(t).Dir())
	p := c.post("/sheets/print")
	require.Equal(t, http.StatusUnprocessableEntity, p.status)
	require.Contains(t, p.main(), "none is ticked; tick those that you want to print")
}
