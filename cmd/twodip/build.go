package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles/english"
)

func buildCommand(a *app) *cobra.Command {
	var reader string
	var take []string
	c := &cobra.Command{
		Use:   "build",
		Short: "Make the site: the wall, every tile and glaze, search by words and by color",
		Long: `Make the site in build/site: the wall, every tile and glaze, search by words and
by color. With --for teacher it goes to build/teacher and has two more pages,
the faults in the log and the buckets against their tiles; that copy is not for
publishing.

A file in the wall's themes/ replaces the file of that name of the built-in
theme. --take copies one there for you to change:
  ` + strings.Join(themes.Names(), "\n  "),
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			if reader != "everybody" && reader != "teacher" {
				return usageError{fmt.Errorf("--for %s: a site is made for everybody or for teacher", reader)}
			}
			if len(take) > 0 {
				return a.takeTheme(take)
			}
			return a.build(reader == "teacher")
		},
	}
	c.Flags().StringVar(&reader, "for", "everybody", "who will read it: everybody or teacher")
	c.Flags().StringSliceVar(&take, "take", nil, "copy a `file` of the built-in theme into themes/ and build nothing")
	return c
}

func (a *app) build(teacher bool) error {
	ctx, stop := a.interruptible()
	defer stop()
	b, err := produce.Site(ctx, a.folder(), produce.SiteWish{Teacher: teacher, Program: ownSum(), Tell: a.bars()})
	if err != nil {
		return err
	}
	a.hintCopies()
	if b.Remade > 0 {
		a.step("%s: pictures made again", english.Count(b.Remade, "photo", "photos"))
	}
	if b.Stopped {
		if err := a.done(b, "stopped before the site was whole: what was there before is as it was", "twodip build, which makes it from the start"); err != nil {
			return err
		}
		return errSaid
	}
	for _, w := range english.First(mostNotes, b.Warnings) {
		a.step("note: %s", w)
	}
	if b.Made == 0 {
		a.step("nothing has changed since the last build: every file is as it was")
	}
	if b.Pictured == 0 {
		a.step("note: no tile has a photo yet: put photos in tiles/photos and run twodip measure")
	}
	a.step("of people's records the site holds: %s", b.Records)
	summary := fmt.Sprintf("%s, %d with a photo, %d with a color, %s, %s of your own, %s: %.1f MB",
		english.Count(b.Tiles, "tile", "tiles"), b.Pictured, b.Read, english.Count(b.Glazes, "glaze", "glazes"),
		english.Count(b.Pages, "page", "pages"), english.Count(b.Files, "file", "files"), float64(b.Bytes)/1e6)
	if err := a.done(b, summary, "open "+b.Open); err != nil || b.Lost == nil {
		return err
	}
	a.complain(b.Lost.Brief(4)) // the site is there, without those photos
	return errSaid
}

// takeTheme copies files of the built-in theme to where they may be changed.
func (a *app) takeTheme(names []string) error {
	if err := produce.TakeTheme(a.folder(), names); err != nil {
		return err
	}
	for _, name := range names {
		a.step("themes/%s", name)
	}
	return a.done(names, english.Count(len(names), "file", "files")+" to change", "twodip build")
}
