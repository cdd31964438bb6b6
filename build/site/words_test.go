package site

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/table"
)

// boxHolds says whether a color lies in a region of the words table.
func boxHolds(box [6]float64, c color.Lab) bool {
	chroma, hue := math.Hypot(c.A, c.B), math.Atan2(c.B, c.A)*180/math.Pi
	if hue < 0 {
		hue += 360
	}
	around := hue >= box[4] && hue <= box[5]
	if box[4] > box[5] {
		around = hue >= box[4] || hue <= box[5]
	}
	return c.L >= box[0] && c.L <= box[1] && chroma >= box[2] && chroma <= box[3] && around
}

// Against published open data: what people call a color on a screen lies in the
// region of its name.
func TestColorWordsHoldTheSurveysColors(t *testing.T) {
	rows, err := readWords(themes.Built())
	require.NoError(t, err)
	src, err := os.ReadFile("testdata/survey.csv")
	require.NoError(t, err)
	survey, err := table.Read("survey.csv", bytes.NewReader(src))
	require.NoError(t, err)
	held := 0
	for _, r := range survey.Data() {
		word := survey.Cell(r, "word")
		n, err := strconv.ParseUint(survey.Cell(r, "srgb")[1:], 16, 32)
		require.NoError(t, err)
		c := color.FromSRGB(uint8(n>>16), uint8(n>>8), uint8(n))
		for _, row := range rows {
			if row.Does == "color" && row.Box != nil && slices.Contains(row.Words, word) {
				assert.True(t, boxHolds(*row.Box, c), "%s: %.0f %.0f %.0f", word, c.L, c.A, c.B)
				held++
			}
		}
	}
	assert.Greater(t, held, 90)
}

func TestAWordsTableSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"does,words\nfly,up\n":                           `themes/words.csv:2: "fly" is nothing a word can do`,
		"does,words\nstop,\n":                            "themes/words.csv:2: words is empty",
		"does,words,is,lightness\ncolor,teal,,20-120\n":  `themes/words.csv:2: lightness is "20-120": write it as 20-60, 20- or -60, from 0 to 100`,
		"does,words,is,chroma\ncolor,teal,,much\n":       `themes/words.csv:2: chroma is "much"`,
		"does,words,is,lightness\ncolor,turquoise,,\n":   "themes/words.csv:2: a color needs a region or the plain name it is",
		"kind,words\nstop,the\n":                         "themes/words.csv:1: ",
		"does,words,is,hue\ncolor,teal,,350-20\nx,y,,\n": `themes/words.csv:3: "x"`,
	} {
		_, err := readWords(fstest.MapFS{"words.csv": {Data: []byte(text)}})
		assert.ErrorContains(t, err, want, text)
	}
}

// A school that teaches in Spanish replaces the table.
func TestTheWordsOfAnotherLanguage(t *testing.T) {
	spanish := `does,words,is,lightness,chroma,hue
stop,el;la;de;un;una;algo;que,,,,
over,sobre;encima de,,,,
under,bajo;debajo de,,,,
not,no;sin,,,,
food,comida;alimentos;apto para comida,,,,
runs,chorrea;escurre,,,,
same,azul;azules,blue,,,
color,blue,blue,,,
color,turquesa,,44-84,15-,168-222
`
	wall := questionWall()
	dir := build(t, Input{Wall: wall, Theme: fstest.MapFS{"words.csv": {Data: []byte(spanish)}}})
	b := openTab(t, 800, 600)
	b.visit(fileURL(dir, "index.html"))
	for typed, want := range map[string]question{
		"milk sobre rust":          {must: []string{"LR QM"}, count: 1},
		"milk bajo rust":           {must: []string{"QM LR"}, count: 1},
		"turquesa":                 {must: []string{"CM"}, never: []string{"LR", "TB"}},
		"algo azul que no chorrea": {must: []string{"TB"}, never: []string{"SF TB", "LR"}},
		"apto para comida":         {must: []string{"QM"}, never: []string{"FG", "CM"}, count: 10},
	} {
		got := eval[[]int](b, fmt.Sprintf(`(() => { const w = twodip.columns(); return twodip.ask.search(w, twodip.ask.build(w), %s).rows.map(i => w.tile[i]) })()`, asJSON(t, typed)))
		assert.Empty(t, want.wrong(wall, got), typed)
	}
	b.quiet()
}

func TestWhatCanBeMadeToday(t *testing.T) {
	wall := questionWall()
	for i := range wall.Glazes {
		wall.Glazes[i].Bucket = "ready"
	}
	wall.Glazes[0].Bucket, wall.Glazes[1].Bucket, wall.Glazes[2].Bucket = "low", "being remixed", "gone"
	dir := build(t, Input{Wall: wall})
	b := openTab(t, 1000, 800)
	b.visit(fileURL(dir, "index.html#leave=ready"))
	b.until(`document.getElementById('found-count').textContent === '100 of 144 tiles'`)
	b.visit(fileURL(dir, "index.html#words=milk&leave=ready,food"))
	b.until(`document.getElementById('found-count').textContent === '17 of 144 tiles'`)
	assert.Contains(t, eval[string](b, `document.getElementById('shown').textContent`), "bucket low")
	assert.Equal(t, "Quarry Milk low, Oat Husk gone", open(t, dir, "tile/3.html").Find("dt:contains('Today') + dd").Text())
	b.visit(fileURL(build(t, Input{Wall: questionWall()}), "index.html"))
	assert.Zero(t, eval[int](b, `document.querySelectorAll('[data-only]').length`), "a wall that says nothing of its buckets has no such choice")
	b.quiet()
}
