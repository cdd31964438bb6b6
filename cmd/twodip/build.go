package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
)

func buildCommand(a *app) *cobra.Command {
	var reader string
	var take []string
	c := &cobra.Command{
		Use:   "build",
		Short: "Make the site: the wall, every tile and glaze, search by words and by color",
		Long: `Make the site in build/site: the wall, every tile and glaze, search by words and
by color. With --for teacher it goes to build/teacher and has two pages more,
the faults in the log and the buckets against their tiles; that copy is not for
publishing.

A file in the wall's themes/ replaces the file of that name of the built-in
theme. --take copies one there to be changed:
  ` + strings.Join(themes.Names(), "\n  "),
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error {
			if reader != "everybody" && reader != "teacher" {
				return usageError{fmt.Errorf("--for %s: there are everybody and teacher", reader)}
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

// built is what build says to programs.
type built struct {
	Open string `json:"open"` // the file to open
	site.Report
}

func (a *app) build(teacher bool) error {
	release, err := a.lockWall()
	if err != nil {
		return err
	}
	defer release()
	last := a.lastBuild(teacher)
	if before, ok := last.stands(); ok {
		return a.sayBuilt(before)
	}
	wall, in, err := a.siteInput(teacher)
	if err != nil {
		return err
	}
	again := a.missingPictures(last.files, wall)
	if again.unwritten != nil {
		return again.unwritten
	}
	if again.made > 0 {
		a.step("%s: pictures made again", many(again.made, "photo", "photos"))
	}
	if err := last.forget(); err != nil {
		return err
	}
	in.Sum, in.Version = last.sumOf, a.version()
	bar := a.progress(2*len(wall.Tiles), "the site")
	in.Tick = func() { _ = bar.Add(1) }
	b := built{Open: filepath.ToSlash(filepath.Join(last.dir, "index.html"))}
	b.Report, err = site.Build(last.dir, in)
	_ = bar.Finish()
	if err != nil {
		return err
	}
	last.keep(b, again.missed == 0)
	if err := a.sayBuilt(b); err != nil || again.lost == nil {
		return err
	}
	a.complain(again.lost) // the site is there, without those photos
	return errSaid
}

// lockWall takes the wall's lock; in a folder that is no wall, nothing.
func (a *app) lockWall() (release func(), err error) {
	if !a.folder().Has(content.SettingsFile) {
		return func() {}, nil // reading the wall will say what it lacks
	}
	return a.folder().Lock()
}

// siteInput reads all that the site is made from.
func (a *app) siteInput(teacher bool) (tiles.Wall, site.Input, error) {
	var ps problems
	r, err := a.loadRecords()
	if isNoWall(err) {
		return r.wall, site.Input{}, err
	}
	ps.add(err)
	pages := gather(&ps, a.folder(), content.ReadPages)
	if err := ps.err(); err != nil {
		return r.wall, site.Input{}, err
	}
	if len(r.wall.Tiles) == 0 {
		return r.wall, site.Input{}, tiles.Problem{File: record.PlanFile, What: "has no tiles", Do: "run twodip plan first"}
	}
	in := site.Input{
		Wall: r.wall, Pages: pages, Pictures: a.pictures(r.wall), PagePicture: a.pagePicture,
		Theme: a.folder().Part("themes"), Cache: a.folder().Path(cacheFolder),
	}
	in.Skipped, in.Caution = verdicts(r.wall)
	r.tell(&in, teacher)
	return r.wall, in, nil
}

func (a *app) sayBuilt(b built) error {
	for _, w := range b.Warnings {
		a.step("note: %s", w)
	}
	if b.Made == 0 {
		a.step("nothing has changed since the last build: every file is as it was")
	}
	if b.Pictured == 0 {
		a.step("note: no tile has a photo yet: put photos in tiles/photos and run twodip measure")
	}
	summary := fmt.Sprintf("%s, %d with a photo, %d with a color, %s, %s of your own, %s: %s",
		many(b.Tiles, "tile", "tiles"), b.Pictured, b.Read, many(b.Glazes, "glaze", "glazes"),
		many(b.Pages, "page", "pages"), many(b.Files, "file", "files"), megabytes(b.Bytes))
	a.step("of people's records the site holds: %s", b.Records)
	return a.done(b, summary, "open "+b.Open)
}

func megabytes(bytes int64) string { return fmt.Sprintf("%.1f MB", float64(bytes)/1e6) }

// pictures finds a tile's pictures, which measure has made. One of a photo
// whose readings were taken out is not shown.
func (a *app) pictures(wall tiles.Wall) func(tiles.Number, int) (string, bool) {
	shown := winners(wall.Readings)
	return func(n tiles.Number, width int) (string, bool) {
		if _, ok := shown[n]; !ok {
			return "", false
		}
		name := measure.PicturePath(n, width)
		return a.folder().Path(name), a.folder().Has(name)
	}
}

// pageWidth is as wide as a page's words, twice over for sharp screens.
const pageWidth = 1280

// pagePicture reads a picture that a page shows and makes it fit to publish:
// upright, of a screen's size, with nothing in it but the picture.
func (a *app) pagePicture(file string) ([]byte, error) {
	data, err := a.folder().Read(file, folder.MostPhoto)
	var ps tiles.Problems
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("there is no such file in content/")
	case errors.As(err, &ps):
		return nil, errors.New("it " + ps[0].What + "; " + ps[0].Do)
	case err != nil:
		return nil, err
	}
	p, err := photo.Open(data)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = p.Small(p.Image.Bounds(), pageWidth).JPEG(&b)
	return b.Bytes(), err
}

// verdicts says what the rules say of pairs: why one is skipped, and what to
// mind with another.
func verdicts(w tiles.Wall) (skipped, caution func(tiles.Pair) string) {
	result, err := plan.Extend(w.Settings, w.Glazes, w.Tiles)
	if err != nil {
		return nil, nil // the plan says so when it is made; the site shows what hangs
	}
	return reasons(result.Skipped), reasons(result.Cautions)
}

func reasons(vs []plan.Verdict) func(tiles.Pair) string {
	by := map[tiles.Pair]string{}
	for _, v := range vs {
		by[v.Pair.Key()] = v.Reason()
	}
	return func(p tiles.Pair) string { return by[p.Key()] }
}
