package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
)

// hostileWords each try to be something else than words somewhere on the way.
var hostileWords = []string{
	`<script>owned()</script>`, `"><img src=x onerror=owned()>`, `</script></title><script>owned()</script>`,
	`=cmd|' /C calc'!A0`, `+1`, `@SUM(A1)`, `-2+3`, `../../x`, `C:\x\y`, "bell\x07 and \x1b[31m red",
	"turned \u202eelif\u202c", "pot 🏺 釉薬", strings.Repeat("Long ", 12)[:59], `{{.}} {{template "main"}}`, `%s%d%n`,
	`javascript:owned()`, `<!-- --!>`, `]]>`, "two\r\nlines", `a "quoted, cell`, `) Tj (\) \\ endstream`,
}

// hostileWall is a small wall in which every word that a person may write is
// one of those, and rows for its log.
func hostileWall(t *testing.T) (dir, rows string) {
	dir = smallWall(t, 2, map[string]string{"tiles/loads.csv": "load,kiln,date\n", "tiles/batches.csv": "glaze,batch,mixed\n"})
	var list, log bytes.Buffer
	glazes, pieces := csv.NewWriter(&list), csv.NewWriter(&log)
	_ = glazes.Write([]string{"code", "name", "finish", "color", "notes", "cautions"})
	_ = pieces.Write([]string{"piece", "date", "maker", "clay", "first", "second", "load", "shelf", "result", "faults", "note"})
	for i, w := range hostileWords {
		short := string([]rune(w)[:min(len([]rune(w)), 60)])
		_ = glazes.Write([]string{fmt.Sprintf("H%d", i), w, short, short, w, w})
		_ = pieces.Write([]string{w, "2026-03-02", w, w, "H0", fmt.Sprintf("H%d", i), w, w, "fault", w, w})
		put(t, dir, fmt.Sprintf("content/page%d.md", i), "---\ntitle: "+strconv.QuoteToASCII(short)+"\norder: 3\n---\n\n# "+w+"\n\n"+w+" [a](javascript:owned()) <img src=x onerror=owned()> [b]("+w+")\n")
	}
	glazes.Flush()
	pieces.Flush()
	put(t, dir, "content/glazes.csv", list.String())
	put(t, dir, "wall.yaml", "name: "+strconv.Quote(hostileWords[2])+"\npart:\n  pairs: 42\n") // each word as a first coat and as a second
	rows = filepath.Join(t.TempDir(), "=rows <b>.csv")
	require.NoError(t, os.WriteFile(rows, log.Bytes(), 0o644))
	return dir, rows
}

// A corpus of hostile words goes through the whole job with the real command:
// it stays words on paper, in tables and in the browser, and nothing is written
// outside the wall.
func TestHostileWordsThroughTheWholeJob(t *testing.T) {
	t.Parallel()
	dir, rows := hostileWall(t)
	beside := hashes(t, filepath.Dir(rows))
	finish(t, dir, "plan")
	plan, err := os.ReadFile(filepath.Join(dir, "tiles/plan.csv"))
	require.NoError(t, err)
	for i := range hostileWords {
		require.Regexp(t, fmt.Sprintf(`(?m)^\d+,H%d,H`, i), string(plan), "as a first coat")
		require.Regexp(t, fmt.Sprintf(`(?m)^\d+,H\d+,H%d,`, i), string(plan), "as a second coat")
	}
	for i, name := range []string{`1 "><img src=x onerror=owned()>.jpg`, `2 <svg onload=owned()>.jpg`, `3 =cmd|' {{.}} %s.jpg`, "4 " + strings.Repeat("L", 240) + ".jpg", "5 \u202egpj.jpg"} {
		photograph(t, dir, 1, "x")
		require.NoError(t, os.Rename(filepath.Join(dir, "tiles/photos/x"), filepath.Join(dir, "tiles/photos", name)), "%d", i)
	}
	for _, args := range [][]string{{"log", rows}, {"measure"}, {"print"}, {"build"}, {"build", "--for", "teacher"}, {"trace"}, {"drift"}, {"find", "#804020"}} {
		said := finish(t, dir, args...)
		assert.NotContains(t, said, "\x1b", "no control character reaches the terminal: %s", args[0])
		assert.NotContains(t, said, "\x07", args[0])
	}
	assert.Equal(t, beside, hashes(t, filepath.Dir(rows)))
	around, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	require.Len(t, around, 1, "nothing is written beside the wall")
	assert.Equal(t, filepath.Base(dir), around[0].Name())
	t.Run("tables", func(t *testing.T) { checkCells(t, dir) })
	t.Run("paper", func(t *testing.T) { checkPaperOf(t, dir) })
	t.Run("browser", func(t *testing.T) { checkPages(t, dir) })
}

func TestATerminalIsToldNothingButWordsAndSwatches(t *testing.T) {
	const swatch = "\x1b[48;2;1;20;255m      \x1b[0m"
	assert.Equal(t, "a [2J "+swatch+"b\n\tc d", harmless("a \x1b[2J "+swatch+"b\n\tc\x07\u202e\u009b d"))
}

// formula is a cell that a spreadsheet would compute; a number is none.
var (
	formula = regexp.MustCompile(`^[=+@\t\r＝＋＠-]`)
	numeral = regexp.MustCompile(`^[-+]?[0-9.]+$`)
)

func checkCells(t *testing.T, dir string) {
	for _, name := range []string{"tiles/plan.csv", "tiles/measured.csv", "tiles/log.csv", "build/site/data/tiles.csv", "build/teacher/data/tiles.csv"} {
		f, err := os.Open(filepath.Join(dir, name))
		require.NoError(t, err)
		defer f.Close()
		all, err := csv.NewReader(f).ReadAll()
		require.NoError(t, err, name)
		require.Greater(t, len(all), 1, name)
		for _, cell := range flat(all) {
			assert.False(t, formula.MatchString(cell) && !numeral.MatchString(cell), "%s: %q", name, cell)
		}
	}
}

func flat(rows [][]string) (cells []string) {
	for _, r := range rows {
		cells = append(cells, r...)
	}
	return cells
}

// tool looks for a program that CI has.
func tool(t *testing.T, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal(name + " is missing")
		}
		t.Skip(name + " is missing: what it would look at is not checked")
	}
}

func checkPaperOf(t *testing.T, dir string) {
	tool(t, "qpdf")
	tool(t, "pdftotext")
	all, err := filepath.Glob(filepath.Join(dir, "build/print/*.pdf"))
	require.NoError(t, err)
	require.Greater(t, len(all), 8)
	for _, pdf := range all {
		out, err := exec.Command("qpdf", "--check", pdf).CombinedOutput()
		assert.NoError(t, err, "%s", out)
	}
	out, err := exec.Command("pdftotext", "-raw", filepath.Join(dir, "build/print/dips.pdf"), "-").Output()
	require.NoError(t, err)
	text := strings.Join(strings.Fields(string(out)), " ")
	for _, w := range []string{`<script>owned()</script>`, `=cmd|' /C calc'!A0`, `../../x`, `%s%d%n`, `) Tj (\)`, `]]>`} {
		assert.Contains(t, text, w)
	}
}

// checkPages opens every kind of page of both sites: nothing of theirs runs, no
// window opens, nothing is asked for outside the site, and nothing had to be
// refused by the page's own policy.
func checkPages(t *testing.T, dir string) {
	tool(t, chromium.Program)
	ctx, stop := chromium.Start(context.Background())
	defer stop()
	ctx, end := context.WithTimeout(ctx, 4*time.Minute)
	defer end()
	require.NoError(t, chromedp.Do(ctx))
	seen := make(chan string, 10_000)
	require.NoError(t, chromedp.Listen(ctx, func(ev any) {
		switch ev := ev.(type) {
		case *runtime.EventExceptionThrown:
			seen <- "exception: " + ev.ExceptionDetails.Text
		case *log.EventEntryAdded:
			seen <- "said: " + ev.Entry.Text
		case *page.EventJavascriptDialogOpening:
			seen <- "dialog: " + ev.Message
		case *network.EventRequestWillBeSent:
			if u := ev.Request.URL; !strings.HasPrefix(u, "file://"+filepath.ToSlash(dir)+"/build/") && !strings.HasPrefix(u, "data:") && !strings.HasPrefix(u, "blob:") && !strings.HasPrefix(u, "about:") {
				seen <- "request: " + u
			}
		}
	}))
	_, err := chromedp.Call(ctx, network.Enable, network.EnableParams{})
	require.NoError(t, err)
	_, err = chromedp.Call(ctx, log.Enable, cdp.Empty{})
	require.NoError(t, err)
	names := kindsOfPages(t, dir)
	require.Greater(t, len(names), 40)
	for _, name := range names {
		require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.ToSlash(filepath.Join(dir, "build"))+"/"+name)), name)
		bad, err := chromedp.Run(ctx, chromedp.Evaluate[int](`(typeof owned === 'undefined' ? 0 : 1000) + document.querySelectorAll(
			'[onerror], [onload], img[src="x"], script:not([src]), a[href^="javascript" i], a[href^="data:"]').length`))
		require.NoError(t, err, name)
		own := 0
		if name == "contact.html" {
			own = 1 // the sheet's own script: it is one file, never published
		}
		assert.Equal(t, own, bad, name)
		for len(seen) > 0 {
			assert.Fail(t, <-seen, name)
		}
	}
	t.Logf("%d pages opened", len(names))
}

// kindsOfPages are all pages but those of tiles, of which a dozen stand for all,
// and those of the teacher's copy that differ from the site's own in their head
// alone.
func kindsOfPages(t *testing.T, dir string) (names []string) {
	build := filepath.Join(dir, "build")
	count := 0
	require.NoError(t, filepath.WalkDir(build, func(path string, d fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(build, path)
		if err != nil || filepath.Ext(path) != ".html" || strings.HasPrefix(rel, "contact"+string(filepath.Separator)) {
			return err
		}
		if filepath.Base(filepath.Dir(path)) == "tile" {
			if count++; count%10 != 1 {
				return nil
			}
		}
		if own, ok := strings.CutPrefix(filepath.ToSlash(rel), "teacher/"); ok && mainOf(t, path) == mainOf(t, filepath.Join(build, "site", own)) {
			return nil
		}
		names = append(names, filepath.ToSlash(rel))
		return nil
	}))
	return append(names, "site/index.html#words=%3Cscript%3Eowned()%3C/script%3E", "site/compare.html#tiles=1,2", "site/room.html#show=1")
}

// mainOf is what a page says below its head; "" = there is no such page.
func mainOf(t *testing.T, page string) string {
	data, err := os.ReadFile(page)
	if os.IsNotExist(err) {
		return ""
	}
	require.NoError(t, err)
	_, text, found := strings.Cut(string(data), "<main")
	require.True(t, found, page)
	return text
}
