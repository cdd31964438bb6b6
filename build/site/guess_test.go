package site

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/foresee"
)

// halfFired is an invented wall of which two pairs in five are not fired.
func halfFired(t testing.TB) Input {
	in := inventedInput(t, 8)
	open := map[tiles.Number]bool{}
	for i := range in.Wall.Tiles {
		tile := &in.Wall.Tiles[i]
		if !tile.Single() && tile.Number%5 < 2 && tile.Status == tiles.Fired {
			tile.Status, tile.Load = tiles.Planned, 4
			open[tile.Number] = true
		}
	}
	var readings []tiles.Reading
	for _, r := range in.Wall.Readings {
		if !open[r.Tile] {
			readings = append(readings, r)
		}
	}
	in.Wall.Readings = readings
	pictures := in.Pictures
	in.Pictures = func(n tiles.Number, width int) (string, bool) {
		if open[n] {
			return "", false
		}
		return pictures(n, width)
	}
	return in
}

// foreseen is the same wall with guesses switched on.
func foreseen(t testing.TB) Input {
	in := halfFired(t)
	in.Foresee = foresee.OfWall(in.Wall)
	require.True(t, in.Foresee.Standing().Speaks)
	return in
}

var trusted = regexp.MustCompile(`half of such guesses on this wall were within \d+, nine of ten within \d+`)

func TestAGuessIsAlwaysCalledOne(t *testing.T) {
	in := foreseen(t)
	dir := build(t, in)
	doc := open(t, dir, "index.html")
	assert.Regexp(t, trusted, words(doc.Find(".guess-legend")))
	cells := doc.Find(".cell.guessed")
	assert.Greater(t, cells.Length(), 10)
	cells.Each(func(_ int, c *goquery.Selection) {
		assert.Contains(t, words(c), "guess: ", "the word stands in the cell")
		assert.Contains(t, words(c), "planned")
		assert.Equal(t, 1, c.Find(".guess svg").Length())
		assert.Equal(t, 0, c.Find("svg.swatch").Length(), "never as a reading")
	})
	assert.Equal(t, cells.Length(), doc.Find(".grid .guess").Length())
	for _, tile := range in.Wall.Tiles {
		page := open(t, dir, tile.Number.PagePath())
		fired := page.Find(".zone").Length() > 0
		if guess := page.Find("#guess-title"); guess.Length() > 0 && !fired {
			assert.Equal(t, "Not fired: a guess", words(guess))
			assert.Regexp(t, `guess: .*; `+trusted.String(), words(page.Find(".guess-of p")))
			assert.NotContains(t, words(page.Find(".guess-of")), "L*", "no numbers as of a reading")
		}
	}
}

// The data files, the room and what is compared know nothing of guesses.
func TestGuessesAreNoData(t *testing.T) {
	without, with := build(t, halfFired(t)), build(t, foreseen(t))
	for _, name := range []string{"data/columns.js", "data/tiles.csv", "data/tiles.json", "room.html", "compare.html", "color.html", "order.html"} {
		a, err := os.ReadFile(filepath.Join(without, name))
		require.NoError(t, err)
		b, err := os.ReadFile(filepath.Join(with, name))
		require.NoError(t, err)
		assert.Equal(t, string(a), string(b), name)
	}
	for _, name := range pages(t, without) {
		assert.Zero(t, open(t, without, name).Find(".guess, .guessed, #with-guesses").Length(), "%s, with guesses switched off", name)
	}
	script, err := os.ReadFile(filepath.Join(with, guessFile))
	require.NoError(t, err)
	var all struct {
		Trust string
		First []int
		Says  []string
	}
	data, _, _ := strings.Cut(strings.TrimPrefix(string(script), "twodip.guesses="), ";\n")
	require.NoError(t, json.Unmarshal([]byte(data), &all))
	assert.Equal(t, open(t, with, "index.html").Find(".cell.guessed").Length(), len(all.First))
	for _, says := range all.Says {
		assert.True(t, strings.HasPrefix(says, "guess: "), says)
	}
	assert.NoFileExists(t, filepath.Join(without, guessFile))
}

func TestAGuessStandsBesideWhatCameOut(t *testing.T) {
	in := foreseen(t)
	in.Teacher = &Teacher{}
	dir := build(t, in)
	both := 0
	for _, tile := range in.Wall.Tiles {
		page := open(t, dir, tile.Number.PagePath())
		if pair := page.Find(".guess-pair"); pair.Length() > 0 {
			both++
			assert.Greater(t, tile.Load, 1, "guessed from the loads before")
			assert.Equal(t, 1, pair.Find(".guess").Length())
			assert.Equal(t, 1, pair.Find("svg.swatch").Length())
			assert.Regexp(t, `Left, the guess: .* Right, as it came out: .*, ΔE00 \d+\.\d from the guess\.`, words(page.Find(".guess-of p")))
		}
	}
	assert.Greater(t, both, 5)
	page := open(t, dir, guessPath)
	assert.Equal(t, 1, page.Find("figure svg").Length())
	assert.Regexp(t, `\d+ pairs, guessed and fired: \d+ came out within what was said of half of them, \d+ within what was said of nine in ten\. Each was guessed from the loads before its own\.`, words(page.Find("main")))
	assert.Equal(t, 1, page.Find(`nav a[href="guesses.html"][aria-current="page"]`).Length())
	assert.NoFileExists(t, filepath.Join(build(t, foreseen(t)), guessPath), "on a site that others see")
}

func TestAWallThatCannotBeGuessedSaysNothing(t *testing.T) {
	in := inventedInput(t, 4)
	in.Foresee, in.Teacher = foresee.OfWall(in.Wall), &Teacher{}
	dir := build(t, in)
	assert.Contains(t, words(open(t, dir, guessPath).Find("main")), "Too few tiles to guess from; 12 more would tell.")
	assert.Zero(t, open(t, dir, "index.html").Find(".guess, #with-guesses").Length())
	assert.NoFileExists(t, filepath.Join(dir, guessFile))
}

// In a browser: guesses come after the tiles, and only when they are asked for.
func TestFindWithGuesses(t *testing.T) {
	dir := build(t, foreseen(t))
	b := openTab(t, 1200, 900)
	b.visit(fileURL(dir, "index.html") + "#near=50 10 20")
	b.until(`document.querySelectorAll('#shown li').length > 0`)
	b.until(`document.getElementById('shown').ariaBusy !== 'true'`)
	assert.True(t, eval[bool](b, `document.getElementById('guessed').hidden`))
	tiles := eval[string](b, `document.getElementById('shown').textContent`)
	eval[bool](b, `document.getElementById('with-guesses').click() === undefined`)
	b.until(`!document.getElementById('guessed').hidden`)
	assert.Equal(t, 6.0, eval[float64](b, `document.querySelectorAll('#guessed-list li').length`))
	assert.Equal(t, 6.0, eval[float64](b, `[...document.querySelectorAll('#guessed-list li')].filter(l => /guess: .* from what you look for/.test(l.textContent)).length`))
	b.until(`document.getElementById('shown').ariaBusy !== 'true'`)
	assert.Equal(t, tiles, eval[string](b, `document.getElementById('shown').textContent`), "the tiles found are the same")
	b.quiet()
}
