package main

import (
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "github.com/twodip/twodip/"

// mayImport is the table of DEVELOPERS.md, "How the code is cut": what a
// package may import of ours. A package that is not here has no place yet.
var mayImport = map[string][]string{
	"tiles":           {},
	"tiles/folder":    {"tiles"},
	"tiles/earlier":   {"tiles/folder"},
	"tiles/table":     {"tiles"},
	"tiles/color":     {},
	"tiles/english":   {},
	"tiles/plan":      {"tiles"},
	"tiles/photo":     {"tiles/color"},
	"tiles/target":    {"tiles"},
	"tiles/geometry":  {},
	"tiles/mark":      {"tiles", "tiles/geometry", "tiles/photo", "tiles/target"},
	"tiles/measure":   {"tiles", "tiles/color", "tiles/color/correct", "tiles/color/mottle", "tiles/geometry", "tiles/photo", "tiles/mark", "tiles/target"},
	"tiles/record":    {"tiles", "tiles/color", "tiles/folder", "tiles/table"},
	"tiles/unchanged": {"tiles/folder"},
	"tiles/foresee":   {"tiles", "tiles/color"},
	"tiles/logbook":   {"tiles", "tiles/english"},
	"tiles/trace":     {"tiles", "tiles/english", "tiles/logbook"},
	"tiles/drift":     {"tiles", "tiles/english", "tiles/color", "tiles/logbook"},
	"tiles/chart":     {"tiles/drift/control", "tiles/trace/evidence"},
	"tiles/mistaken":  {"tiles", "tiles/color"},
	"content":         {"tiles", "tiles/folder", "tiles/table", "tiles/table/book"},
	"tiles/run":       {"content", "tiles", "tiles/color", "tiles/drift", "tiles/english", "tiles/folder", "tiles/logbook", "tiles/measure", "tiles/photo", "tiles/plan", "tiles/record", "tiles/trace", "tiles/unchanged"},
	"content/demo":    {"tiles", "tiles/color"},
	"build/contact":   {"tiles", "tiles/color", "tiles/geometry", "tiles/measure", "tiles/run"},
	"build/sheet":     {"tiles", "tiles/english", "tiles/plan", "tiles/target", "tiles/logbook", "tiles/trace", "tiles/drift", "tiles/chart"},
	"build/site":      {"tiles", "tiles/folder", "tiles/table", "tiles/color", "tiles/record", "tiles/unchanged", "tiles/english", "tiles/trace", "tiles/drift", "tiles/chart", "content", "themes"},
	"build/produce":   {"build/sheet", "build/site", "content", "themes", "tiles", "tiles/drift", "tiles/english", "tiles/folder", "tiles/logbook", "tiles/measure", "tiles/photo", "tiles/plan", "tiles/record", "tiles/run", "tiles/unchanged"},
	"themes":          {},
}

// home is the one package, or the packages below it, that may import an
// outside library.
var home = map[string]string{
	"github.com/jung-kurt/gofpdf":        "build/sheet",
	"github.com/piglig/go-qr":            "tiles/target",
	"github.com/yuin/goldmark":           "build/site",
	"github.com/tdewolff/minify":         "build/site",
	"github.com/lucasb-eyer/go-colorful": "tiles/color",
	"github.com/bep/imagemeta":           "tiles/photo",
	"github.com/kovidgoyal/imaging":      "tiles/photo",
	"github.com/gen2brain/heic":          "tiles/photo",
	"github.com/makiuchi-d/gozxing":      "tiles/mark",
	"github.com/dustin/go-humanize":      "tiles/english",
	"github.com/agnivade/levenshtein":    "tiles/logbook",
	"github.com/xuri/excelize":           "tiles/table/book",
	"gopkg.in/yaml.v3":                   "content",
	"github.com/adrg/frontmatter":        "content",
	"github.com/spf13/cobra":             "cmd/twodip",
	"github.com/schollz/progressbar":     "cmd/twodip",
	"github.com/gofrs/flock":             "tiles/folder",
}

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

// TestHouseImportsRunOneWay holds every import of ours against the table.
func TestHouseImportsRunOneWay(t *testing.T) {
	for _, p := range listPackages(t) {
		from := strings.TrimPrefix(p.ImportPath, module)
		if strings.HasPrefix(from, "cmd/") {
			continue
		}
		allowed, known := mayImport[from]
		if !known {
			allowed, known = mayImport[path.Dir(from)]
			allowed = append(slices.Clone(allowed), path.Dir(from))
		}
		if !known {
			t.Errorf("%s has no place in the table of imports", from)
			continue
		}
		for _, imp := range p.Imports {
			to, ours := strings.CutPrefix(imp, module)
			if ours && !slices.Contains(allowed, to) && !below(to, from) {
				t.Errorf("%s may not import %s", from, to)
			}
		}
	}
}

// TestHouseLibrariesHaveOneHome holds every outside library to its home.
func TestHouseLibrariesHaveOneHome(t *testing.T) {
	for _, p := range listPackages(t) {
		from := strings.TrimPrefix(p.ImportPath, module)
		for _, imp := range p.Imports {
			for library, at := range home {
				if below(imp, library) && !below(from, at) {
					t.Errorf("%s imports %s, whose home is %s", from, imp, at)
				}
			}
		}
	}
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
