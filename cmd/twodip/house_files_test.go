package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fileFunctions reach a file by its path, past tiles/folder.
var fileFunctions = map[string][]string{
	"os": {"Chmod", "Chtimes", "CopyFS", "Create", "CreateTemp", "DirFS", "Link", "Lstat", "Mkdir", "MkdirAll", "MkdirTemp", "Open", "OpenFile",
		"OpenInRoot", "OpenRoot", "ReadDir", "ReadFile", "Readlink", "Remove", "RemoveAll", "Rename", "Stat", "Symlink", "Truncate", "WriteFile"},
	"path/filepath": {"EvalSymlinks", "Glob", "Walk", "WalkDir"},
	"io/ioutil":     {"ReadAll", "ReadDir", "ReadFile", "TempDir", "TempFile", "WriteFile"},
}

// byPath are the files of the code that may: tiles/folder, and those that look
// after what is made and may be deleted at any time. None reads what a person
// wrote, but to hash it.
var byPath = map[string]string{
	"cmd/bench/lately.go":                "which walls this person opened, in their own folder for settings",
	"cmd/bench/place.go":                 "where a new wall could be",
	"tiles/unchanged/files.go":           "hashes of files, of the site's too",
	"tiles/unchanged/keep.go":            "the cache of those hashes",
	"build/site/output.go":               "the site while it is made",
	"build/site/keep.go":                 "pictures kept from one build to the next",
	"build/site/mdpage.go":               "whether the site has a page",
	"build/site/atlas.go":                "pictures that measure made",
	"build/site/light.go":                "pictures that measure made",
	"build/site/picture.go":              "pictures that measure made",
	"tiles/color/munsell/tables/make.go": "makes a table of the code, from a published one",
	"tiles/color/spectral/bench.go":      "published spectra, for tests",
	"tiles/color/spectral/read.go":       "published spectra, for tests",
}

// TestHouseFilesAreReadOneWay holds every other file to tiles/folder, and the
// list to what needs it.
func TestHouseFilesAreReadOneWay(t *testing.T) {
	used := map[string]bool{}
	root := filepath.Join("..", "..")
	err := filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, at)
		name := filepath.ToSlash(rel)
		switch {
		case err != nil:
			return err
		case d.IsDir() && name != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata"):
			return fs.SkipDir
		case d.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") || path.Dir(name) == "tiles/folder":
			return nil
		}
		for _, call := range reachesFiles(t, at) {
			if used[name] = true; byPath[name] == "" {
				t.Errorf("%s uses %s: a file of the wall is reached through tiles/folder", name, call)
			}
		}
		return nil
	})
	require.NoError(t, err)
	for name := range byPath {
		if !used[name] {
			t.Errorf("%s reaches no file by its path any more: take it off the list", name)
		}
	}
}

// reachesFiles lists what a file of the code uses of fileFunctions.
func reachesFiles(t *testing.T, at string) []string {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), at, nil, 0)
	require.NoError(t, err)
	known := map[string][]string{}
	for _, imp := range file.Imports {
		from := strings.Trim(imp.Path.Value, `"`)
		name := path.Base(from)
		if imp.Name != nil {
			name = imp.Name.Name
		}
		known[name] = fileFunctions[from]
	}
	var found []string
	ast.Inspect(file, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if of, ok := sel.X.(*ast.Ident); ok && of.Obj == nil && slices.Contains(known[of.Name], sel.Sel.Name) {
				found = append(found, of.Name+"."+sel.Sel.Name)
			}
		}
		return true
	})
	return found
}
