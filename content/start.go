package content

import (
	"bytes"
	"embed"
	"io/fs"
	"path"

	"github.com/twodip/twodip/tiles/folder"
)

//go:embed starter pages
var built embed.FS

// Starter lists the files of a new wall by their path inside it: short,
// commented, to be edited, and the built-in pages.
func Starter() (map[string][]byte, error) {
	files := map[string][]byte{}
	for from, to := range map[string]string{"starter": "", "pages": "content"} {
		entries, err := fs.ReadDir(built, from)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			text, err := fs.ReadFile(built, path.Join(from, e.Name()))
			if err != nil {
				return nil, err
			}
			files[starterPlace(to, e.Name())] = text
		}
	}
	files[".gitignore"] = []byte("# Made anew by twodip at any time.\nbuild/\n.twodip.lock\n.twodip.owner\n.twodip.desk\n.twodip-writing-*\n")
	return files, nil
}

func starterPlace(folder, name string) string {
	switch name {
	case "glazes.csv", "buckets.csv":
		folder = "content"
	case "log.csv", "batches.csv", "loads.csv":
		folder = "tiles"
	}
	return path.Join(folder, name)
}

// Start makes a new wall in dir, which must not exist or be empty.
func Start(dir string) error {
	files, err := Starter()
	if err != nil {
		return err
	}
	return folder.Make(dir, files, folder.Photos)
}

// Beginning is what a person says of a wall that they begin.
type Beginning struct {
	Name  string
	Paper string // letter or a4
}

// Begin makes a new wall in dir as Start does, with what is said of it in its
// wall.yaml and a glaze list that waits for its glazes.
func Begin(dir string, b Beginning) error {
	files, err := Starter()
	if err != nil {
		return err
	}
	s, err := ParseSettings(files[SettingsFile])
	if err != nil {
		return err
	}
	s.Name, s.Paper = tidy(b.Name), b.Paper
	if files[SettingsFile], err = Resettled(files[SettingsFile], s); err != nil {
		return err
	}
	headings, _, _ := bytes.Cut(files[GlazesCSV], []byte("\n"))
	files[GlazesCSV] = append(headings, '\n')
	return folder.Make(dir, files, folder.Photos)
}
