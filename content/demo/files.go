// Package demo is an invented studio in an invented place: twelve invented
// glazes, a year's records, and photos of fired tiles made by computation from
// a saved seed, with known true colors.
package demo

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed wall
var wall embed.FS

// Seed is where all chance of the demo comes from.
const Seed = 20260112

// Files are the files of the demo's wall before anything is fired, by their
// path inside it, without what the program makes.
func Files() (map[string][]byte, error) {
	entries, err := fs.ReadDir(wall, "wall")
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for _, e := range entries {
		text, err := fs.ReadFile(wall, path.Join("wall", e.Name()))
		if err != nil {
			return nil, err
		}
		name := e.Name()
		if !strings.HasSuffix(name, "wall.yaml") {
			name = "content/" + name
		}
		files[name] = text
	}
	return files, nil
}

// Records are what the studio wrote down after its wall was planned: the
// glazing log of one term, the buckets and the firings of two.
func Records() map[string][]byte {
	t := newTerm()
	return map[string][]byte{
		"tiles/log.csv":     t.log(),
		"tiles/batches.csv": t.buckets(),
		"tiles/loads.csv":   t.firings(),
	}
}
