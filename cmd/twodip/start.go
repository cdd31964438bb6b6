package main

import (
	"path/filepath"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
)

func startCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "start DIR",
		Short: "Make a new wall: short commented files to edit",
		Args:  usageArgs(cobra.ExactArgs(1)),
		RunE:  func(_ *cobra.Command, args []string) error { return a.start(args[0]) },
	}
}

// started is what start says to programs.
type started struct {
	Wall string   `json:"wall"`
	Edit []string `json:"edit"`
}

func (a *app) start(dir string) error {
	if err := content.Start(dir); err != nil {
		return err
	}
	edit := []string{content.SettingsFile, content.GlazesCSV}
	a.step("%-20s name, cone, tile, kiln, paper, rules", content.SettingsFile)
	a.step("%-20s the glaze list: put your own buckets in its rows", content.GlazesCSV)
	a.step("%-20s pages for your students: change them or write more", "content/*.md")
	a.step("%-20s photos of fired tiles go here: 7.jpg is of tile 7", "tiles/photos/")
	a.step("%-20s the glazing log, what is mixed, what is fired: a row each, below the headings", "tiles/*.csv")
	a.step("a first wall can be small: 4 glazes are 16 tiles, one afternoon of dipping; add the others later, no number changes")
	return a.done(started{Wall: dir, Edit: edit}, "a new wall is in "+filepath.ToSlash(dir),
		"edit the first two files, then: twodip plan --wall "+folder.Typed(dir))
}
