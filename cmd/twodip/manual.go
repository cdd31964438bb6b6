package main

import (
	"bytes"
	"io"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
)

func manualCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "manual DIR",
		Short: "Write the manual pages of all commands, for man",
		Args:  usageArgs(cobra.ExactArgs(1)),
		RunE:  func(c *cobra.Command, args []string) error { return a.manual(c.Root(), args[0]) },
	}
}

// manualDate stands on every page, so that the same program writes the same
// bytes; the version says the rest.
var manualDate = time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)

func (a *app) manual(root *cobra.Command, dir string) error {
	if _, err := folder.New(dir); err != nil {
		return err
	}
	root.DisableAutoGenTag = true
	var files []string
	for _, c := range append([]*cobra.Command{root}, root.Commands()...) {
		if c.Hidden || !c.IsAvailableCommand() && c != root {
			continue
		}
		file := manualName(c)
		if err := writeManual(filepath.Join(dir, file), c); err != nil {
			return err
		}
		files = append(files, file)
	}
	return a.done(files, english.Count(len(files), "manual page", "manual pages")+" in "+filepath.ToSlash(dir),
		"man "+filepath.ToSlash(filepath.Join(dir, "twodip.1")))
}

// manualName is the page's file: twodip.1, twodip-plan.1.
func manualName(c *cobra.Command) string {
	if !c.HasParent() {
		return c.Name() + ".1"
	}
	return c.Parent().Name() + "-" + c.Name() + ".1"
}

func writeManual(path string, c *cobra.Command) error {
	var page bytes.Buffer
	header := &doc.GenManHeader{Title: "TWODIP", Section: "1", Source: "twodip " + version, Date: &manualDate}
	if err := doc.GenMan(c, header, &page); err != nil {
		return err
	}
	return folder.WriteFile(path, func(w io.Writer) error {
		_, err := page.WriteTo(w)
		return err
	})
}
