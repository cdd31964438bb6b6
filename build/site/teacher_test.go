package site

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/drift"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/trace"
)

// secret is a maker's mark that no page may show.
const secret = "MAKER-ZQX"

// logged is a log in which one pair of the wall crawls.
func logged(w tiles.Wall) logbook.Log {
	a, b := w.Glazes[0].Code, w.Glazes[1].Code
	return func(yield func(tiles.Piece) bool) {
		for i := range 120 {
			p := tiles.Piece{ID: fmt.Sprint(secret, i), Maker: fmt.Sprint(secret, i%4), Note: secret, Result: "good", Load: fmt.Sprint(i % 3), Pair: tiles.Pair{First: b}}
			if i < 12 {
				p.Pair = tiles.Pair{First: a, Second: b}
			}
			if i < 9 {
				p.Result, p.Faults = "", []string{"crawled"}
			}
			if !yield(p) {
				return
			}
		}
	}
}

func teacherInput(t testing.TB) Input {
	in := inventedInput(t, 6)
	report := trace.Faults(logged(in.Wall), trace.Studio{Glazes: in.Wall.Glazes})
	drift := drift.Compare(in.Wall, nil, nil)
	in.Teacher = &Teacher{Trace: &report, Drift: &drift}
	in.Seen = logbook.NewSeen(logged(in.Wall), in.Wall.Glazes).On
	return in
}

func TestTheTeachersCopyTracesFaults(t *testing.T) {
	in := teacherInput(t)
	dir := build(t, in)
	doc := open(t, dir, "trace.html")
	assert.Equal(t, "Crawling: 9 of 120 pieces", words(doc.Find("h2").First()))
	assert.Equal(t, "9 of 12 pieces with "+in.Wall.Say(tiles.Pair{First: in.Wall.Glazes[0].Code, Second: in.Wall.Glazes[1].Code})+" crawled; 0 of 108 without.",
		words(doc.Find(".counts").First()))
	assert.Equal(t, 1, doc.Find("figure svg").Length())
	assert.Contains(t, words(open(t, dir, "drift.html").Find("main")), "No control tile has a reading")
	assert.Equal(t, 1, doc.Find(`nav a[href="trace.html"][aria-current="page"]`).Length())
	assert.NotContains(t, everyFile(t, dir), secret)
}

// The site that others see has neither page, and nobody's mark.
func TestThePublicSiteKeepsTheLogToItself(t *testing.T) {
	in := teacherInput(t)
	in.Teacher = nil
	dir := build(t, in)
	for _, name := range []string{tracePath, driftPath} {
		assert.NoFileExists(t, filepath.Join(dir, name))
	}
	all := everyFile(t, dir)
	assert.NotContains(t, all, secret)
	assert.NotContains(t, all, tracePath)
	assert.Contains(t, all, "crawling on 9 of 12 pieces", "counts by pair are for everybody")
}

// everyFile is the text of all pages and data of a site.
func everyFile(t testing.TB, dir string) string {
	var b strings.Builder
	require.NoError(t, filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		b.Write(data)
		return err
	}))
	return b.String()
}
