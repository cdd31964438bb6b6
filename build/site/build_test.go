package site

import (
	"net/url"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// build makes the site of an invented wall and returns its folder.
func build(t testing.TB, in Input) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "site")
	_, err := Build(t.Context(), dir, in)
	require.NoError(t, err)
	return dir
}

// small wall with its pictures and a page of the teacher's.
func inventedInput(t testing.TB, n int) Input {
	w := invent(n)
	return Input{Wall: w, Pictures: inventPictures(t, w, 6), Pages: []content.Page{{
		Slug: "before-you-glaze", Title: "Before you glaze",
		Body: []byte("Dip **bisque** only.\n\n# Stir\n\n- one\n\n![far](http://far.example/x.png) <script>alert(1)</script> [bad](javascript:alert(1))\n"),
	}}}
}

// open reads a page of the site.
func open(t testing.TB, dir, name string) *goquery.Document {
	t.Helper()
	f, err := os.Open(filepath.Join(dir, filepath.FromSlash(name)))
	require.NoError(t, err)
	defer f.Close()
	doc, err := goquery.NewDocumentFromReader(f)
	require.NoError(t, err)
	return doc
}

// words is an element's text with its white space folded.
func words(s *goquery.Selection) string { return strings.Join(strings.Fields(s.Text()), " ") }

// pages lists the site's pages.
func pages(t testing.TB, dir string) []string {
	var names []string
	require.NoError(t, filepath.WalkDir(dir, func(p string, d os.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(p, ".html") {
			rel, _ := filepath.Rel(dir, p)
			names = append(names, filepath.ToSlash(rel))
		}
		return err
	}))
	return names
}

func TestTheWallIsReadWithoutAScript(t *testing.T) {
	dir := build(t, inventedInput(t, 8))
	doc := open(t, dir, "index.html")
	assert.Equal(t, 64, doc.Find(".cell").Length())
	assert.Equal(t, "2nd Lamp Rust", words(doc.Find(".col-head").Eq(1)))
	row := doc.Find(".block .row").Eq(2)
	assert.Equal(t, "1st Kiln Moss", words(row.Find(".row-head")))
	href, _ := row.Find(".cell a").Eq(1).Attr("href")
	assert.Equal(t, "tile/18.html", href, "row 3, column 2 of a wall of 8")
	assert.Equal(t, "41 planned, load 3", words(doc.Find(".block .row").Eq(5).Find(".cell").First()))
	assert.Equal(t, 1, doc.Find(".atlases img").Length())

	tile := open(t, dir, "tile/18.html")
	assert.Equal(t, "Tile 18 1st Kiln Moss → 2nd Lamp Rust", words(tile.Find("h1")))
	assert.Equal(t, "2nd Lamp Rust over it", words(tile.Find(".stack li").First()), "the second lies above the first")
	assert.Contains(t, words(tile.Find(".near")), "The other order 11 1st Lamp Rust → 2nd Kiln Moss ΔE00")
	assert.Contains(t, words(tile.Find("main")), "not tested for food")
	assert.Equal(t, "Planned, load 3.", words(open(t, dir, "tile/41.html").Find(".no-photo")), "a tile without a photo says why")

	glaze := open(t, dir, "glaze/LB.html")
	assert.Equal(t, 7, glaze.Find("#as-first").Parent().Find(".shown li").Length())
	assert.Equal(t, 7, glaze.Find("#as-second").Parent().Find(".shown li").Length())

	page := open(t, dir, "page/before-you-glaze.html")
	assert.Equal(t, "Dip bisque only.", words(page.Find(".prose p").First()))
	assert.Zero(t, page.Find(".prose script, .prose img, .prose [href^=javascript]").Length(), "nothing foreign, nothing that runs")
}

func TestEveryLinkAndFragmentResolves(t *testing.T) {
	dir := build(t, inventedInput(t, 8))
	docs := map[string]*goquery.Document{}
	for _, name := range pages(t, dir) {
		docs[name] = open(t, dir, name)
	}
	for name, doc := range docs {
		ids := map[string]bool{}
		doc.Find("[id]").Each(func(_ int, s *goquery.Selection) {
			id, _ := s.Attr("id")
			assert.False(t, ids[id], "%s: id %s is there twice", name, id)
			ids[id] = true
		})
		doc.Find("[href],[src]").Each(func(_ int, s *goquery.Selection) {
			link := s.AttrOr("href", s.AttrOr("src", ""))
			checkLink(t, dir, docs, name, link)
		})
	}
}

// stateful are the pages whose fragment is a state for the script, not a place.
var stateful = map[string]bool{"index.html": true, "compare.html": true, "room.html": true}

func checkLink(t *testing.T, dir string, docs map[string]*goquery.Document, name, link string) {
	u, err := url.Parse(link)
	require.NoError(t, err, "%s: %s", name, link)
	if u.Scheme == "http" || u.Scheme == "https" || link == "data:," {
		return
	}
	require.Empty(t, u.Scheme, "%s: %s", name, link)
	target := name
	if u.Path != "" {
		target = path.Join(path.Dir(name), u.Path)
	}
	require.FileExists(t, filepath.Join(dir, filepath.FromSlash(target)), "%s leads to %s", name, link)
	if doc, isPage := docs[target]; isPage && u.Fragment != "" && !stateful[target] {
		found := doc.Find("[id]").FilterFunction(func(_ int, s *goquery.Selection) bool { return s.AttrOr("id", "") == u.Fragment })
		assert.Equal(t, 1, found.Length(), "%s leads to %s", name, link)
	}
}

func TestNoRequestLeavesTheSite(t *testing.T) {
	dir := build(t, inventedInput(t, 3))
	for _, name := range pages(t, dir) {
		doc := open(t, dir, name)
		csp, _ := doc.Find(`meta[http-equiv="Content-Security-Policy"]`).Attr("content")
		assert.Equal(t, policy, csp, name)
		assert.Zero(t, doc.Find("style, [style], script:not([src]), [onclick], [onload], [onerror]").Length(), "%s has inline style or script", name)
		doc.Find("img, script, link[rel=stylesheet]").Each(func(_ int, s *goquery.Selection) {
			assert.NotContains(t, s.AttrOr("src", s.AttrOr("href", "")), ":", name)
		})
	}
}

func TestAPictureWithMetadataStaysOut(t *testing.T) {
	in := inventedInput(t, 2)
	from, _ := in.Pictures(1, large)
	clean, err := os.ReadFile(from)
	require.NoError(t, err)
	exif := append([]byte{0xFF, 0xD8, 0xFF, 0xE1, 0, 16}, "Exif\x00\x00GPS here"...)
	require.NoError(t, os.WriteFile(from, append(exif, clean[2:]...), 0o644))
	dir := filepath.Join(t.TempDir(), "site")
	r, err := Build(t.Context(), dir, in)
	require.NoError(t, err)
	require.Len(t, r.Warnings, 1)
	assert.Contains(t, r.Warnings[0], "tile 1 is left out: it holds metadata")
	assert.NoFileExists(t, filepath.Join(dir, "picture", "1.jpg"))
}

func TestAFailedBuildLeavesTheSiteThatWasThere(t *testing.T) {
	in := inventedInput(t, 2)
	dir := build(t, in)
	in.Theme = fstest.MapFS{"tile.html": {Data: []byte(`{{define "main"}}{{.Nonsense}}{{end}}`)}}
	_, err := Build(t.Context(), dir, in)
	var p tiles.Problem
	require.ErrorAs(t, err, &p)
	assert.Equal(t, "themes/tile.html", p.File)
	assert.Contains(t, p.What, "Nonsense")
	assert.FileExists(t, filepath.Join(dir, "tile", "1.html"))
	assertAlone(t, dir)
}

func TestAStoppedBuildIsMended(t *testing.T) {
	in := inventedInput(t, 2)
	dir := build(t, in)
	beside := filepath.Join(filepath.Dir(dir), ".twodip-writing-site")
	require.NoError(t, os.Rename(dir, beside+"-before"), "stopped between the two renames")
	require.NoError(t, os.Mkdir(beside, 0o755))
	release, err := folder.At(filepath.Dir(filepath.Dir(dir))).Lock()
	require.NoError(t, err, "which sweeps")
	release()
	f, err := begin(t.Context(), dir, "")
	require.NoError(t, err)
	assert.FileExists(t, filepath.Join(dir, "index.html"), "the old site is back before anything is made")
	f.abandon()
	assertAlone(t, dir)
}

// assertAlone holds that nothing half-made lies beside the site.
func assertAlone(t *testing.T, dir string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	for _, e := range entries {
		assert.NotContains(t, e.Name(), "twodip-writing")
	}
}

// Where two folders cannot change places at one stroke, it is done in two.
func TestASiteIsSwappedInTwoStrokesToo(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	for _, text := range []string{"one", "two"} {
		f, err := begin(t.Context(), dir, "")
		require.NoError(t, err)
		require.NoError(t, f.write("index.html", []byte(text)))
		require.NoError(t, f.swapByMoving())
		got, err := os.ReadFile(filepath.Join(dir, "index.html"))
		require.NoError(t, err)
		assert.Equal(t, text, string(got))
		assertAlone(t, dir)
	}
}

func TestAWallMayReplaceOneFileOfTheTheme(t *testing.T) {
	in := inventedInput(t, 2)
	in.Theme = fstest.MapFS{
		"page.html":        {Data: []byte(`{{define "main"}}<h1>Ours: {{.Heading}}</h1>{{end}}`)},
		"style/4-tile.css": {Data: []byte(".ours{color:red}")},
	}
	dir := build(t, in)
	assert.Equal(t, "Ours: Before you glaze", words(open(t, dir, "page/before-you-glaze.html").Find("h1")))
	css, err := os.ReadFile(filepath.Join(dir, "look.css"))
	require.NoError(t, err)
	assert.Contains(t, string(css), ".ours{color:red}")
	assert.Contains(t, string(css), "--surround", "the other files are the built-in ones")

	in.Theme = fstest.MapFS{"pages.html": {Data: []byte("x")}}
	_, err = Build(t.Context(), dir, in)
	assert.ErrorContains(t, err, "themes/pages.html: replaces no file of the built-in theme")
}

func TestAWallMayHangOnFromDisk(t *testing.T) {
	assert.Equal(t, "glaze/CON-glaze.html", glazePath("CON"), "Windows keeps CON for a device")
	assert.Equal(t, "glaze/CN.html", glazePath("CN"))
}

// builtPages are the pages every new wall starts with.
func builtPages(t testing.TB) []content.Page {
	dir := filepath.Join(t.TempDir(), "wall")
	require.NoError(t, content.Start(dir))
	pages, err := content.ReadPages(folder.At(dir))
	require.NoError(t, err)
	require.NotEmpty(t, pages)
	return pages
}

func TestThePagesOfANewWallLeadSomewhere(t *testing.T) {
	in := inventedInput(t, 2)
	in.Pages = builtPages(t)
	dir := filepath.Join(t.TempDir(), "site")
	r, err := Build(t.Context(), dir, in)
	require.NoError(t, err)
	assert.Empty(t, r.Warnings)

	in.PagePicture = func(file string) ([]byte, error) {
		assert.Equal(t, "content/shelf.png", file)
		from, _ := in.Pictures(1, small)
		return os.ReadFile(from)
	}
	in.Pages = append(in.Pages, content.Page{File: "content/x.md", Slug: "x", Title: "X", Body: []byte("![Our shelf](shelf.png) ![out](../wall.yaml) ![far](https://far.example/a.png) [y](y.md) [far](https://far.example/) [tile](../tile/1.html) [part](#part)")})
	r, err = Build(t.Context(), dir, in)
	require.NoError(t, err)
	assert.Equal(t, []string{
		"content/x.md links to y.html, which is not on the site",
		"content/x.md shows ../wall.yaml, which is not in content/: it is left out",
	}, r.Warnings)
	page := open(t, dir, "page/x.html")
	src := page.Find(".prose img").AttrOr("src", "")
	assert.Regexp(t, `^\.\./picture/page-[0-9a-f]{24}\.jpg$`, src, "not by the name its owner gave it")
	assert.FileExists(t, filepath.Join(dir, "page", filepath.FromSlash(src)))
	assert.Equal(t, "out far y far tile part", words(page.Find(".prose p")), "a picture that is left out leaves its words")
}

func TestHeadingsBeginBelowTheTitle(t *testing.T) {
	in := inventedInput(t, 2)
	in.Pages = []content.Page{{File: "content/x.md", Slug: "x", Title: "Rules", Body: []byte("# Rules\n\ntext\n\n### Deep\n\n# One\n\n#### Two\n\n## Two again\n")}}
	doc := open(t, build(t, in), "page/x.html")
	var got []string
	doc.Find("main h1, main h2, main h3, main h4").Each(func(_ int, s *goquery.Selection) { got = append(got, goquery.NodeName(s)+" "+words(s)) })
	assert.Equal(t, []string{"h1 Rules", "h2 Deep", "h2 One", "h3 Two", "h3 Two again"}, got)
}

func TestTheSameInputGivesTheSameBytes(t *testing.T) {
	in := inventedInput(t, 5)
	assert.Equal(t, everyFile(t, build(t, in)), everyFile(t, build(t, in)))
}

// bothWays is a wall on which every glaze hangs alone and twice.
func bothWays() tiles.Wall {
	w := invent(3)
	for _, g := range w.Glazes {
		w.Tiles = append(w.Tiles, tiles.Tile{Number: tiles.Number(len(w.Tiles) + 1), Pair: tiles.Pair{First: g.Code, Second: g.Code}, Status: tiles.Planned})
	}
	return w
}

func TestAWallOfSinglesAndDoublesHasAColumnForSingles(t *testing.T) {
	dir := build(t, Input{Wall: bothWays()})
	doc := open(t, dir, "index.html")
	assert.Equal(t, "1st alone", words(doc.Find(".col-head").First()))
	row := doc.Find(".block .row").Eq(1)
	assert.Equal(t, []string{"tile/5.html", "tile/4.html", "tile/11.html", "tile/6.html"},
		row.Find(".cell a").Map(func(_ int, s *goquery.Selection) string { return s.AttrOr("href", "") }))
	assert.Equal(t, "Tile 11 1st Lamp Rust → 2nd Lamp Rust again", words(open(t, dir, "tile/11.html").Find("h1")))

	b := openTab(t, 1200, 800)
	b.visit(fileURL(dir, "index.html"))
	eval[any](b, `(document.querySelector('a[href="tile/6.html"]').focus(), 1)`)
	b.press("x")
	assert.Equal(t, "8", eval[string](b, `document.activeElement.textContent`), "the other order, past the column of singles")
}
