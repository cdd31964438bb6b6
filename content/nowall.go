package content

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/twodip/twodip/tiles/folder"
)

// noWall says of a folder without a wall.yaml what it may be instead: a folder
// of a wall, or a wall whose settings have another name.
func noWall(dir folder.Folder, err error) error {
	if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	what, do := "is not in "+dir.Shown("")+": this is not a wall's folder", "name the folder with --wall, or make one with: twodip start our-wall"
	page := "name another folder, or begin a new wall on the page Walls"
	if name := settingsByAnotherName(dir); name != "" {
		what, do, page = "is not in "+dir.Shown("")+", but "+name+" is", "rename that file to "+SettingsFile, ""
	} else if up := wallAbove(dir); up != "" {
		what, do = "is not in "+dir.Shown("")+": this is inside the wall "+called(up), "use --wall "+folder.Typed(up)
		page = "open that folder: " + up
	}
	p := problem(SettingsFile, 0, what, do)
	p[0].Page = page
	return notAWall{p}
}

// settingsByAnotherName finds a file that was meant as wall.yaml: an editor
// adds .txt, and .yml is the other ending of YAML.
func settingsByAnotherName(dir folder.Folder) string {
	names, _ := dir.Names(".")
	for _, name := range names {
		switch strings.ToLower(name) {
		case "wall.yml", "wall.yaml.txt", "wall.yml.txt", "wall.yaml", "wall.yaml.yaml", "wall.txt":
			return name
		}
	}
	return ""
}

// mostAbove is how far up a wall is looked for: tiles/photos/monday is three.
const mostAbove = 5

// wallAbove is the path to the wall that the folder lies in; "" = in none.
func wallAbove(dir folder.Folder) string {
	up := dir.Dir()
	for range mostAbove {
		up = filepath.Join(up, "..")
		if folder.At(up).Has(SettingsFile) {
			return filepath.ToSlash(up)
		}
	}
	return ""
}

// called is the name of the folder itself, whichever way the path goes.
func called(path string) string {
	if full, err := filepath.Abs(path); err == nil {
		return filepath.Base(full)
	}
	return path
}
