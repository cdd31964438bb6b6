package sheet_test

import (
	"bytes"
	"fmt"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// glazes are invented.
var glazes = []tiles.Glaze{
	{Code: "QM", Name: "Quarry Milk", Finish: "satin", Shade: "light", SG: 1.45},
	{Code: "LR", Name: "Lamp Rust", Finish: "gloss", Shade: "dark", SG: 1.48, Traits: []tiles.Trait{tiles.Runny}},
	{Code: "HF", Name: "Heron Fog", Finish: "matte", Shade: "light", SG: 1.44},
	{Code: "TB", Name: "Tidepool Blue", Finish: "gloss", Shade: "mid", SG: 1.46, Traits: []tiles.Trait{tiles.Colorant}},
	{Code: "MS", Name: "Moss Stair", Finish: "satin", Shade: "mid", SG: 1.45},
	{Code: "OX", Name: "Ox Lantern", Finish: "gloss", Shade: "dark", SG: 1.5, Traits: []tiles.Trait{tiles.Runny, tiles.Colorant}},
	{Code: "ST", Name: "Straw Ash", Finish: "matte", Shade: "light", SG: 1.43, Traits: []tiles.Trait{tiles.Soluble}},
	{Code: "NB", Name: "Night Barge", Finish: "gloss", Shade: "dark", SG: 1.47},
	{Code: "PC", Name: "Plaster Cloud", Finish: "matte", Shade: "light", SG: 1.46, Traits: []tiles.Trait{tiles.Crawls}},
	{Code: "GL", Name: "Gull Egg", Finish: "satin", Shade: "light", SG: 1.45},
	{Code: "RW", Name: "Riverbed Wine", Finish: "gloss", Shade: "dark", SG: 1.49},
	{Code: "KC", Name: "Kelp and Copper", Finish: "satin", Shade: "dark", SG: 1.46, Traits: []tiles.Trait{tiles.Colorant, tiles.NotFood}},
}

// wallOf numbers every single and ordered pair of the glazes, row by row.
func wallOf(list []tiles.Glaze) tiles.Wall {
	w := tiles.Wall{Glazes: list}
	w.Name = "Tern Lane Studio"
	w.Address = "https://tiles.example/wall"
	w.Cone = "6"
	w.Paper = "a4"
	w.Read = 3000
	w.Settings.Tile = tiles.Shape{Width: 50, Height: 75, Thickness: 6, Layout: tiles.LayoutEnds, FirstDip: 50, SecondDip: 50}
	w.Kiln = tiles.Kiln{Name: "Kiln 1", Gap: 12, Upright: true, Tray: 10, Post: 40, Seed: 1, Shelves: []tiles.Shelf{
		{Name: "top", Shape: "round", Width: 380, Depth: 380},
		{Name: "middle", Shape: "half-round", Width: 380, Depth: 190},
		{Name: "bottom", Shape: "rectangle", Width: 400, Depth: 300},
	}}
	w.Dip = tiles.Dip{Seconds: 3, Dry: 10, Stir: 5, Coats: 2, Thickness: 0.5, Loss: 15, Spares: 10, Opening: 4, Handling: 25, Bucket: 280, Cup: 120}
	w.Clay = tiles.Clay{Density: 2, Waste: 15}
	w.Rules = []tiles.Rule{{First: "runny", Second: "runny", Do: "skip", Reason: "both run off the tile"}}
	n := tiles.Number(1)
	for _, first := range list {
		for _, second := range list {
			pair := tiles.Pair{First: first.Code, Second: second.Code}
			if first.Code == second.Code {
				pair.Second = ""
			}
			w.Tiles = append(w.Tiles, tiles.Tile{Number: n, Pair: pair, Status: tiles.Planned})
			n++
		}
	}
	return w
}

func jobOf(w tiles.Wall) sheet.Job {
	job := sheet.Job{Wall: w, Date: "2026-03-14", Door: "http://192.168.100.200:49317/?key=ABCDEFGHIJKLMNOPQRSTUVWXYZ"}
	if len(w.Glazes) > 1 {
		record(&job)
	}
	return job
}

// drawn is a sheet's PDF.
func drawn(t *testing.T, draw func(io.Writer, sheet.Job) (int, error), job sheet.Job) []byte {
	t.Helper()
	var b bytes.Buffer
	pages, err := draw(&b, job)
	require.NoError(t, err)
	require.Positive(t, pages)
	return b.Bytes()
}

// many invents n glazes.
func many(n int) []tiles.Glaze {
	list := make([]tiles.Glaze, n)
	for i := range list {
		list[i] = tiles.Glaze{Code: fmt.Sprintf("%c%d", 'A'+i%26, i/26), Name: fmt.Sprintf("Invented Glaze %d", i+1)}
	}
	return list
}

// placed gives the tiles of a wall their loads and shelves, controls included.
func placed(w tiles.Wall) tiles.Wall {
	w.Kiln.Controls = []string{w.Glazes[0].Code}
	w.Tiles = plan.Place(w.Settings, w.Glazes, w.Tiles, false).Tiles
	return w
}
