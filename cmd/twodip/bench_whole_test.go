package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// wholeCells are four glazes as they are copied from a spreadsheet, and
// wholeList is the list that they make in the columns of a new wall.
const (
	wholeCells = "code\tname\tfinish\tcone\tcolor\tsg\nQM\tQuarry Milk\tmatte\t6\twarm white, toasted\t1.46\nFG\tFen Glass\tgloss\t6\tpale green\t1.42\nOH\tOat Husk\tmatte\t6\toatmeal\t1.48\nLR\tLamp Rust\tsatin\t6\trust\t1.45\n"
	wholeList  = "code,name,finish,cone,color,notes,cautions,traits,sg,shade\nQM,Quarry Milk,matte,6,\"warm white, toasted\",,,,1.46,\nFG,Fen Glass,gloss,6,pale green,,,,1.42,\nOH,Oat Husk,matte,6,oatmeal,,,,1.48,\nLR,Lamp Rust,satin,6,rust,,,,1.45,\n"
)

// mostClicks is what the first sheet of labels may take, beside typing.
const mostClicks = 40

// TestTheWholeJobOnTheBenchIsTheJobOfTheCommands does it in Chromium and in
// Firefox, from no wall to the site, by what stands on the screen; then the
// commands do it with the same glazes, photographs and rows, and every file is
// held against theirs.
func TestTheWholeJobOnTheBenchIsTheJobOfTheCommands(t *testing.T) {
	if testing.Short() {
		t.Skip("the whole job takes a while")
	}
	var made madeByCommands
	defer func() { _ = os.RemoveAll(filepath.Dir(made.dir)) }()
	for name, open := range map[string]func(*testing.T) browser{"Chromium": inChromium, "Firefox": inFirefox} {
		t.Run(name, func(t *testing.T) {
			wall, photos, day := wholeJob(t, open)
			if made.dir == "" || made.day != day { // where the day has just turned
				made = byCommands(t, photos, day)
			}
			made.sameAs(t, wall)
		})
	}
}

// wholeJob is what a person does, and the wall that comes of it.
func wholeJob(t *testing.T, open func(*testing.T) browser) (wall string, photos []string, day string) {
	t.Helper()
	work := t.TempDir()
	p := atBench(t, work, open)
	wall = filepath.Join(work, "west room")

	p.sees("Which wall?")
	p.types("What it is called", "The west room")
	p.types("The folder to make for its files", wall)
	p.types("How many glazes will you begin with?", "4")
	p.clicksOn("Begin this wall")
	p.sees("The wall is begun.")
	p.clicksOn("css:input[name='name.0']")
	p.pastes(wholeCells)
	p.sees("4 rows were added")
	p.clicksOn("Save the list")
	p.sees("Saved: 4 glazes are in content/glazes.csv.")
	p.clicksOn("Next: plan the tiles")
	p.sees("16 new tiles")
	p.clicksOn("Write this plan")
	p.sees("Written to tiles/plan.csv: 16 tiles, 4 glazes")
	p.clicksOn("Print labels and sheets")
	p.ask(`document.querySelector('input[value="labels"]:checked') && !document.getElementById("drawing")`)
	p.clicksOn("Make the ticked sheets")
	p.waits("made in build/print: print them at 100 %.")
	p.clicksOn("Open and print them")
	p.ask(`document.querySelector('a[href="/sheets/pdf?sheet=labels"]')`)
	p.clicks += 2 // the sheet's title, and print in the browser's own page for it
	got := p.ask(`await_labels = window.await_labels || (fetch("/sheets/pdf?sheet=labels").then((r) => r.blob()).then((b) => { window.labels = b.type + " " + b.size; }), "asked")`)
	require.NotEmpty(t, got)
	assert.Regexp(t, `^application/pdf [1-9]\d{3,}$`, p.ask("window.labels"))
	t.Logf("%d clicks beside typing from no wall to the first sheet of labels", p.clicks)
	assert.LessOrEqual(t, p.clicks, mostClicks)

	photos = firedPhotos(t, wall)
	p.clicksOn("Photographs")
	p.sees("There are none yet.")
	p.ask(`window.stays = "the same page"`)
	p.chooses("#files", photos...)
	p.clicksOn("Bring and read them")
	p.ask(`document.getElementById("work-stop").hidden && document.body.innerText.includes("4 here") && document.querySelectorAll("#photos > li").length === 4 && !document.querySelector("#photos").innerText.includes("Not read yet")`)
	assert.Equal(t, "the same page", p.ask("window.stays"), "a page that is left while it is read loses a click")
	p.clicksOn("Put it right: IMG_4711.jpg")
	p.ask(`location.search.includes("photo=IMG_4711.jpg")`)
	p.types("The tile’s number", "6")
	p.clicksOn("Keep and read again")
	p.sees("IMG_4711.jpg: tile 6")
	p.ask(`document.getElementById("work-stop").hidden`)

	p.clicksOn("Records")
	p.sees("Write down a mix")
	p.types("Glaze", "QM")
	p.types("Batch, as it stands on the bucket", "QM-1")
	day = p.ask(`document.getElementById("mixed").value`)
	p.types("Specific gravity", "146")
	p.clicksOn("Write it down")
	p.sees("QM, batch QM-1, is written into tiles/batches.csv.")
	p.clicksOn("Glazing log")
	p.sees("Write down a piece")
	p.types("Piece", "P-1")
	p.types("Maker: initials or a number", "7")
	p.types("1st, on the bisque", "QM")
	p.types("→ 2nd, over it", "FG")
	p.clicksOn("Write it down")
	p.sees("P-1")
	p.clicksOn("Site")
	p.ask(`location.pathname === "/site"`)
	p.clicksOn("Make the site")
	p.waits("The site has 16 tiles, 4 with a photo, 4 with a color")
	return wall, photos, day
}

// firedPhotos are made pictures of four tiles of the wall; one has the name that
// its camera gave it.
func firedPhotos(t *testing.T, wall string) []string {
	t.Helper()
	w, err := run.Load(folder.At(wall))
	require.NoError(t, err)
	studio := demo.NewStudio(w.Settings.Tile, demo.Seed)
	into := t.TempDir()
	var out []string
	for i, name := range []string{1: "1.jpg", 2: "2.jpg", 5: "5.jpg", 6: "IMG_4711.jpg"} {
		if name == "" {
			continue
		}
		tile := w.Tiles[i-1]
		require.EqualValues(t, i, tile.Number)
		var b bytes.Buffer
		_, err := studio.JPEG(&b, tile)
		require.NoError(t, err)
		out = append(out, filepath.Join(into, name))
		require.NoError(t, os.WriteFile(out[len(out)-1], b.Bytes(), 0o644))
	}
	return out
}

// madeByCommands is the wall that the commands and an editor make of the same.
type madeByCommands struct{ dir, day string }

func byCommands(t *testing.T, photos []string, day string) madeByCommands {
	t.Helper()
	parent, err := os.MkdirTemp("", "whole")
	require.NoError(t, err)
	other := filepath.Join(parent, "other")
	finish(t, "", "start", other)
	settings, err := os.ReadFile(filepath.Join(other, "wall.yaml"))
	require.NoError(t, err)
	put(t, other, "wall.yaml", strings.Replace(string(settings), "name: Our glaze wall", "name: The west room", 1))
	put(t, other, "content/glazes.csv", wholeList)
	finish(t, other, "plan")
	finish(t, other, "print")
	for _, file := range photos {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		put(t, other, "tiles/photos/"+filepath.Base(file), string(data))
	}
	put(t, other, record.ByHandFile, "photo,tile,outline,note\nIMG_4711.jpg,6,,\n")
	finish(t, other, "measure")
	mixes, err := os.ReadFile(filepath.Join(other, record.BatchesFile))
	require.NoError(t, err)
	put(t, other, record.BatchesFile, string(mixes)+"QM,QM-1,"+day+",1.46,,\n")
	rows := filepath.Join(parent, "rows.csv")
	require.NoError(t, os.WriteFile(rows, []byte("piece,date,maker,first,second\nP-1,"+day+",7,QM,FG\n"), 0o644))
	finish(t, other, "log", rows)
	finish(t, other, "build")
	return madeByCommands{other, day}
}

// sameAs holds every file of a wall against it.
func (m madeByCommands) sameAs(t *testing.T, wall string) {
	t.Helper()
	for _, file := range []string{"content/glazes.csv", record.ByHandFile, record.MeasuredFile} {
		text, err := os.ReadFile(filepath.Join(wall, filepath.FromSlash(file)))
		require.NoError(t, err)
		want, err := os.ReadFile(filepath.Join(m.dir, filepath.FromSlash(file)))
		require.NoError(t, err)
		assert.Equal(t, string(want), string(text), file)
	}
	mine, theirs := hashes(t, wall), hashes(t, m.dir)
	require.NotEmpty(t, mine["build/print/labels.pdf"])
	require.NotEmpty(t, mine["build/site/index.html"])
	for name, sum := range theirs {
		assert.True(t, mine[name] == sum, "%s is not as the commands make it", name)
	}
	for name := range mine {
		assert.Contains(t, theirs, name, "the commands make no such file")
	}
	t.Logf("%d files are the same", len(mine))
}
