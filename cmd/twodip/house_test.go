package main

import (
	"encoding/json"
	"io"
	"maps"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "github.com/twodip/twodip/"

// forbidden names say nothing of what a package is for.
var forbidden = []string{"util", "utils", "common", "helper", "helpers"}

type listed struct {
	ImportPath string
	Imports    []string
}

// listPackages asks the go command what imports what.
func listPackages(t *testing.T) []listed {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", module+"...").Output()
	require.NoError(t, err, "go list")
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		err := dec.Decode(&p)
		if err == io.EOF {
			return all
		}
		require.NoError(t, err)
		all = append(all, p)
	}
}

// TestHouseImportsRunOneWay holds every import of ours against the table of
// packages in DEVELOPERS.md. A package below one of the table may import what
// that one may, and that one.
func TestHouseImportsRunOneWay(t *testing.T) {
	rows := houseTable(t, "| path |")
	for _, p := range listPackages(t) {
		from := strings.TrimPrefix(p.ImportPath, module)
		row, known := rows[from]
		if !known {
			row, known = rows[path.Dir(from)]
			row.names = append(slices.Clone(row.names), path.Dir(from))
		}
		if !known {
			t.Errorf("%s has no place in the table of packages in DEVELOPERS.md", from)
			continue
		}
		for _, imp := range p.Imports {
			to, ours := strings.CutPrefix(imp, module)
			if ours && !row.allows(to) && !below(to, from) {
				t.Errorf("%s may not import %s: the table of packages in DEVELOPERS.md", from, to)
			}
		}
	}
	for name := range rows {
		assert.DirExists(t, filepath.Join("../..", name), "the table of packages in DEVELOPERS.md")
	}
}

// TestHouseLibrariesHaveOneHome holds every outside library to its homes in
// the table of libraries in DEVELOPERS.md, and the table to go.mod.
func TestHouseLibrariesHaveOneHome(t *testing.T) {
	rows := houseTable(t, "| library |")
	for _, p := range listPackages(t) {
		from := strings.TrimPrefix(p.ImportPath, module)
		for _, imp := range p.Imports {
			library, outside := owner(imp, rows)
			if outside && !slices.ContainsFunc(rows[library].names, func(at string) bool { return below(from, at) }) {
				t.Errorf("%s imports %s, which is not at home there: the table of libraries in DEVELOPERS.md", from, imp)
			}
		}
	}
	assert.ElementsMatch(t, directRequires(t), slices.Collect(maps.Keys(rows)), "go.mod's own libraries, and the table of them in DEVELOPERS.md")
}

// owner is the library of the table that an import is of; outside says that it
// is neither ours nor Go's.
func owner(imp string, rows map[string]houseRow) (library string, outside bool) {
	for name := range rows {
		if below(imp, name) {
			return name, true
		}
	}
	first, _, _ := strings.Cut(imp, "/")
	return imp, strings.Contains(first, ".") && !strings.HasPrefix(imp, module)
}

// TestHouseNames refuses package names that say nothing.
func TestHouseNames(t *testing.T) {
	for _, p := range listPackages(t) {
		if slices.Contains(forbidden, path.Base(p.ImportPath)) {
			t.Errorf("%s: the name says nothing of what it is for", p.ImportPath)
		}
	}
}

// TestHouseTopLevel keeps the top level to what was asked for. A wall made in
// the checkout, as the README shows, is its maker's own business.
func TestHouseTopLevel(t *testing.T) {
	asked := []string{"cmd", "content", "themes", "tiles", "build", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	entries, err := os.ReadDir(filepath.Join("..", ".."))
	require.NoError(t, err)
	for _, e := range entries {
		_, err := os.Stat(filepath.Join("..", "..", e.Name(), "wall.yaml"))
		if err != nil && !strings.HasPrefix(e.Name(), ".") && !slices.Contains(asked, e.Name()) {
			t.Errorf("%s does not belong at the top level", e.Name())
		}
	}
}

// below says whether a path is root or lies below it.
func below(p, root string) bool { return p == root || strings.HasPrefix(p, root+"/") }
