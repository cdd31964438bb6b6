package bench

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

func startRoom() room {
	return room{path: "/", name: "Walls", file: "start", show: (*Bench).showStart, does: map[string]does{
		"open": (*Bench).openNamed, "new": (*Bench).newWall, "invented": (*Bench).inventedWall,
	}}
}

// startPage offers the walls that there are, and a new one.
type startPage struct {
	Lately []latelyWall

	Name, Place, Glazes     string
	A4                      bool
	NameWrong, PlaceWrong   string
	GlazesWrong             string
	Invented, InventedWrong string // where the invented studio would be
	Named, NamedWrong       string // a folder that was typed
}

type latelyWall struct{ Name, Dir string }

func (b *Bench) showStart(*asked) (any, error) { return b.startPage(), nil }

func (b *Bench) startPage() *startPage {
	page := &startPage{Name: "Our glaze wall", Place: newPlace("glaze wall"), Glazes: "12", Invented: newPlace("invented studio")}
	for _, dir := range b.lately.walls() {
		page.Lately = append(page.Lately, latelyWall{wallName(folder.At(dir)), dir})
	}
	return page
}

// openNamed opens a wall by its folder; wall.yaml in it will do, too.
func (b *Bench) openNamed(a *asked) (string, error) {
	page := b.startPage()
	page.Named = a.FormValue("place")
	dir, err := typedPlace(page.Named)
	if err == nil && filepath.Base(dir) == content.SettingsFile {
		dir = filepath.Dir(dir)
	}
	if err == nil && !folder.At(dir).Has(content.SettingsFile) {
		err = tiles.Problem{What: dir + " is not a wall's folder: it holds no wall.yaml", Do: "type the folder that holds wall.yaml, or begin a new wall"}
	}
	if err == nil {
		err = b.openWall(dir)
	}
	if err != nil {
		page.NamedWrong = beside(err)
		return "", again{page}
	}
	return "/glazes", nil
}

// beside is an error as a sentence beside the field that it is about.
func beside(err error) string {
	var ps tiles.Problems
	var one tiles.Problem
	switch {
	case errors.As(err, &ps) && len(ps) > 0:
		one = ps[0]
	case !errors.As(err, &one):
		one.What = err.Error()
	}
	if one.File != "" {
		one.What = one.File + " " + one.What
	}
	return sentence(one)
}

// mostNamed is the longest name of a wall, in letters.
const mostNamed = 80

func (b *Bench) newWall(a *asked) (string, error) {
	page := b.startPage()
	page.Name, page.Place, page.Glazes = strings.TrimSpace(a.FormValue("name")), a.FormValue("place"), a.FormValue("glazes")
	page.A4 = a.FormValue("paper") == "a4"
	if n := utf8.RuneCountInString(page.Name); n < 1 || n > mostNamed {
		page.NameWrong = fmt.Sprintf("Give the wall a name of 1 to %d letters.", mostNamed)
	}
	count, err := strconv.Atoi(strings.TrimSpace(page.Glazes))
	if err != nil || count < 1 || count > content.MaxGlazes {
		page.GlazesWrong = fmt.Sprintf("Write a number from 1 to %d. You can add glazes at any time.", content.MaxGlazes)
	}
	dir, err := typedPlace(page.Place)
	if page.NameWrong+page.GlazesWrong != "" && err == nil {
		return "", again{page}
	}
	paper := map[bool]string{false: "letter", true: "a4"}[page.A4]
	if err == nil {
		err = content.Begin(dir, content.Beginning{Name: page.Name, Paper: paper})
	}
	if err == nil {
		err = b.openWall(dir)
	}
	if err != nil {
		page.PlaceWrong = beside(err)
		return "", again{page}
	}
	to := fmt.Sprintf("/glazes?rows=%d", count)
	return b.notes.leave(to, note{Said: []string{"The wall is begun. Its files are in " + dir + ".", "Now its glazes: type them, or paste them from a spreadsheet."}}), nil
}

// inventedWall makes the invented studio, and runs the whole job on it.
func (b *Bench) inventedWall(a *asked) (string, error) {
	page := b.startPage()
	page.Invented = a.FormValue("place")
	dir, err := typedPlace(page.Invented)
	if err == nil && b.work.busy() {
		err = errBusy
	}
	if err == nil {
		err = produce.InventedWall(dir)
	}
	if err == nil {
		err = b.openWall(dir)
	}
	if err != nil {
		page.InventedWrong = beside(err)
		return "", again{page}
	}
	return "/glazes", b.start("Making the invented studio: its plan, its sheets, a year of firings, its photographs, its site", func(ctx context.Context, dir folder.Folder, tell run.Tell) (outcome, error) {
		err := produce.Invented(ctx, dir, produce.InventedWish{Sheet: contact.Sheet, Program: b.program, Tell: tell})
		if errors.Is(err, context.Canceled) {
			return outcome{Said: []string{"Stopped. What was made by then is in the folder; go on with Plan, Photographs and Site as you like."}}, nil
		}
		return outcome{Said: []string{"The invented studio is ready: twelve glazes, their tiles, a year of firings, and the site."}, Next: &link{Href: "/site", Text: "Look at its site"}}, err
	})
}

// wallName is the name of a wall, or else of its folder.
func wallName(dir folder.Folder) string {
	if s, err := content.ReadSettings(dir); err == nil && s.Name != "" {
		return s.Name
	}
	return dir.Called()
}
