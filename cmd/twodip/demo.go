package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
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
	if err := produce.InventedWall(dir); err != nil {
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
		"twodip trace --wall "+folder.Typed(dir)+", or make your own wall: twodip start our-wall")
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

// demoYear lets a year go by.
func (a *app) demoYear() error {
	ctx, stop := a.interruptible()
	defer stop()
	more, photos, err := produce.InventedYear(ctx, a.folder(), a.bars())
	if err != nil {
		return err
	}
	a.step("\nA year goes by: %s more in tiles/plan.csv, controls and re-tests; tiles/loads.csv,\n"+
		"tiles/batches.csv and tiles/log.csv are kept.", english.Count(more, "tile", "tiles"))
	a.step("%s in %s, computed", english.Count(photos, "photo", "photos"), a.folder().Path(folder.Photos))
	return nil
}
