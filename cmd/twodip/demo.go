package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

func demoCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "demo DIR",
		Short: "Make an invented studio's wall, and run the whole main job on it",
		Long: "Make the wall of an invented studio: twelve invented glazes, their fired\n" +
			"tiles in computed photos, a year of firings and re-tests, a term's glazing log.\n" +
			"Then plan, print, measure and build it, as you would.",
		Args: usageArgs(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error { return a.demo(args[0]) },
	}
}

// shown is what demo says to programs: what each command said, and the files
// to look at.
type shown struct {
	Wall  string                     `json:"wall"`
	Steps map[string]json.RawMessage `json:"steps"`
	Print string                     `json:"print"`
	Open  string                     `json:"open"`
}

// demo makes the wall, then runs the commands a person would type: first for
// the wall's own tiles, then for the year after.
func (a *app) demo(dir string) error {
	if err := makeDemoWall(dir); err != nil {
		return err
	}
	a.wall = dir
	a.step("a wall of %s: %d invented glazes", filepath.ToSlash(dir), 12)
	result := shown{Wall: filepath.ToSlash(dir), Steps: map[string]json.RawMessage{},
		Print: filepath.ToSlash(filepath.Join(dir, "build", "print")), Open: filepath.ToSlash(filepath.Join(dir, "build", "site", "index.html"))}
	for _, step := range []struct {
		name string // in what is said to programs
		line []string
	}{
		{"plan", []string{"plan"}},
		{"print", []string{"print"}},
		{"", nil}, // the year goes by
		{"measure", []string{"measure"}},
		{"drift", []string{"drift"}},
		{"plan again", []string{"plan"}},
		{"print records", []string{"print", "trace", "drift", "buckets"}},
		{"build", []string{"build"}},
	} {
		if step.line == nil {
			if err := a.demoYear(); err != nil {
				return err
			}
			continue
		}
		said, err := a.runStep(step.line)
		if err != nil {
			return err
		}
		result.Steps[step.name] = said
	}
	a.step("\nPDFs to print: %s", result.Print)
	return a.done(result, "the site, to open in a browser: "+result.Open,
		"twodip trace --wall "+folder.Typed(dir)+", or make your own wall: twodip start my-wall")
}

func makeDemoWall(dir string) error {
	wall, err := folder.New(dir)
	if err != nil {
		return err
	}
	files, err := content.Starter()
	if err != nil {
		return err
	}
	invented, err := demo.Files()
	if err != nil {
		return err
	}
	for name, text := range invented {
		files[name] = text
	}
	return wall.Fill(files)
}

// runStep runs a command line as it would be typed. What it says is shown
// below it, without its next step: that comes here anyway.
func (a *app) runStep(line []string) (json.RawMessage, error) {
	a.step("\ntwodip %s --wall %s", strings.Join(line, " "), folder.Typed(a.wall))
	var said bytes.Buffer
	args := slices.Concat(line, []string{"--wall", a.wall})
	if a.json {
		args = append(args, "--json")
	}
	status := execute(args, a.in, &said, a.err)
	if status == 0 && a.json {
		return json.RawMessage(said.Bytes()), nil
	}
	for line := range strings.Lines(said.String()) {
		if !strings.HasPrefix(line, "next: ") {
			fmt.Fprint(a.out, "  "+line)
		}
	}
	if status != 0 {
		return nil, errSaid
	}
	return nil, nil
}

// demoYear writes what the studio did after its wall was planned: its records,
// the repeats it fired, and a photo of every tile.
func (a *app) demoYear() error {
	wall, err := run.Load(a.folder())
	if err != nil {
		return err
	}
	planned := len(wall.Tiles)
	wall.Tiles = demo.Year(wall.Tiles)
	if err := a.folder().Fill(demo.Records()); err != nil {
		return err
	}
	if err := record.WriteTiles(a.folder(), wall.Tiles); err != nil {
		return err
	}
	a.step("\nA year goes by: %s more in tiles/plan.csv, controls and re-tests; tiles/loads.csv,\n"+
		"tiles/batches.csv and tiles/log.csv are kept.", english.Count(len(wall.Tiles)-planned, "tile", "tiles"))
	return a.photographDemo(wall)
}

// photographDemo makes a photo of every tile that the plan numbers.
func (a *app) photographDemo(wall tiles.Wall) error {
	studio := demo.NewStudio(wall.Settings.Tile, demo.Seed)
	step := a.bars().Steps("photos", len(wall.Tiles))
	todo := make(chan tiles.Tile)
	var first error
	var once sync.Once
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for t := range todo {
				if err := a.photographTile(studio, t); err != nil {
					once.Do(func() { first = err })
				}
				step()
			}
		})
	}
	for _, t := range wall.Tiles {
		todo <- t
	}
	close(todo)
	workers.Wait()
	if first == nil {
		a.step("%s in %s, computed", english.Count(len(wall.Tiles), "photo", "photos"), a.folder().Path(folder.Photos))
	}
	return first
}

func (a *app) photographTile(studio *demo.Studio, t tiles.Tile) error {
	return a.folder().Write(folder.Photos+"/"+t.Number.String()+".jpg", func(w io.Writer) error {
		_, err := studio.JPEG(w, t)
		return err
	})
}
