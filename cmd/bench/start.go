package bench

import (
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func startRoom() room {
	return room{path: "/", name: "Walls", file: "start", show: (*Bench).showStart, does: map[string]does{
		"open": (*Bench).openNamed,
		"new":  (*Bench).newWall,
	}}
}

// startPage offers the walls that there are, and a new one.
type startPage struct {
	Lately []latelyWall
	Place  string // where a new wall would be
}

type latelyWall struct{ Name, Dir string }

func (b *Bench) showStart(*asked) (any, error) {
	page := startPage{Place: newPlace()}
	for _, dir := range b.lately.walls() {
		page.Lately = append(page.Lately, latelyWall{wallName(folder.At(dir)), dir})
	}
	return page, nil
}

func (b *Bench) openNamed(a *asked) (string, error) {
	dir := strings.TrimSpace(a.FormValue("place"))
	if !folder.At(dir).Has(content.SettingsFile) {
		return "", tiles.Problem{File: dir, What: "is not a wall's folder: it holds no wall.yaml", Do: "name the folder that holds wall.yaml, or begin a new wall there"}
	}
	return "/glazes", b.openWall(dir)
}

func (b *Bench) newWall(a *asked) (string, error) {
	dir := strings.TrimSpace(a.FormValue("place"))
	if err := content.Start(dir); err != nil {
		return "", err
	}
	return "/glazes", b.openWall(dir)
}

// wallName is the name of a wall, or else of its folder.
func wallName(dir folder.Folder) string {
	if s, err := content.ReadSettings(dir); err == nil && s.Name != "" {
		return s.Name
	}
	return dir.Called()
}
