package main

import (
	"image/color"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/themes"
)

// changing is a wall that is changed and built again, over and over.
type changing struct {
	*testing.T
	dir string
	r   *rand.Rand
}

func (c *changing) path(name string) string { return filepath.Join(c.dir, filepath.FromSlash(name)) }

func (c *changing) put(name, text string) {
	require.NoError(c, os.MkdirAll(filepath.Dir(c.path(name)), 0o755))
	require.NoError(c, os.WriteFile(c.path(name), []byte(text), 0o644))
}

// edit replaces text of a file that has it.
func (c *changing) edit(name, old, with string) {
	data, err := os.ReadFile(c.path(name))
	require.NoError(c, err)
	c.put(name, strings.Replace(string(data), old, with, 1))
}

func (c *changing) photo(name string) {
	c.put("tiles/photos/"+name, string(tileJPEG(c.T, color.RGBA{uint8(c.r.IntN(256)), uint8(c.r.IntN(256)), uint8(c.r.IntN(256)), 255})))
}

// anyFile is one of the files below a folder.
func (c *changing) anyFile(folder string) string {
	var all []string
	require.NoError(c, filepath.WalkDir(c.path(folder), func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			all = append(all, p)
		}
		return err
	}))
	return all[c.r.IntN(len(all))]
}

// changes are what people do to a wall, one at a time.
var changes = map[string]func(c *changing){
	"nothing":          func(c *changing) {},
	"photo replaced":   func(c *changing) { c.photo("1.jpg") },
	"photo added":      func(c *changing) { c.photo([]string{"2 again.jpg", "3.jpg", "4.jpg"}[c.r.IntN(3)]) },
	"photo deleted":    func(c *changing) { _ = os.Remove(c.path("tiles/photos/2 again.jpg")) },
	"only photo gone":  func(c *changing) { _ = os.Remove(c.path("tiles/photos/3.jpg")) },
	"glaze renamed":    func(c *changing) { c.edit("content/glazes.csv", "Quarry Milk", "Quarry Cream") },
	"glaze named back": func(c *changing) { c.edit("content/glazes.csv", "Quarry Cream", "Quarry Milk") },
	"page edited":      func(c *changing) { c.edit("content/stir.md", "Stir", "Stir well, stir") },
	"page's title":     func(c *changing) { c.edit("content/stir.md", "# S", "# More on s") },
	"page added":       func(c *changing) { c.put("content/new.md", "# New\n\nSee [stirring](stir.md).\n") },
	"page deleted":     func(c *changing) { _ = os.Remove(c.path("content/new.md")) },
	"picture of a page": func(c *changing) {
		c.put("content/shelf.jpg", string(tileJPEG(c.T, color.RGBA{uint8(c.r.IntN(256)), 9, 9, 255})))
	},
	"style overridden": func(c *changing) {
		c.put("themes/style/4-tile.css", "h1{color:#"+[]string{"eee", "ddd"}[c.r.IntN(2)]+"}")
	},
	"theme overridden": func(c *changing) {
		src, err := fs.ReadFile(themes.Built(), "tile.html")
		require.NoError(c, err)
		c.put("themes/tile.html", strings.Replace(string(src), ">Tile<", ">Test tile "+[]string{"no", "number"}[c.r.IntN(2)]+"<", 1))
	},
	"theme taken away":     func(c *changing) { _ = os.RemoveAll(c.path("themes")) },
	"reading typed":        func(c *changing) { c.edit("tiles/measured.csv", "\n1,", "\n4,whole,41,3,9,,,,1.5\n1,") },
	"wall renamed":         func(c *changing) { c.edit("wall.yaml", "name: A", "name: Another") },
	"tile's shape changed": func(c *changing) { c.edit("wall.yaml", "first-dip: 54", "first-dip: 55") },
	"tile retired":         func(c *changing) { c.edit("tiles/plan.csv", "fired", "retired") },
	"tile added": func(c *changing) {
		c.edit("content/glazes.csv", "\nLR,", "\n"+string('A'+rune(c.r.IntN(26)))+"X,Fen Glass\nLR,")
		twodip("plan", "--wall", c.dir)
	},
	"another program":          func(c *changing) { other := string('a' + rune(c.r.IntN(26))); ownSum = func() string { return other } },
	"page of the site altered": func(c *changing) { c.alter(c.anyFile("build/site")) },
	"file of the site deleted": func(c *changing) { require.NoError(c, os.Remove(c.anyFile("build/site"))) },
	"file put into the site":   func(c *changing) { c.put("build/site/tile/900.html", "not ours") },
	"picture altered":          func(c *changing) { c.alter(c.anyFile("build/pictures")) },
	"picture deleted":          func(c *changing) { require.NoError(c, os.Remove(c.anyFile("build/pictures"))) },
	"cache altered":            func(c *changing) { c.alter(c.anyFile("build/cache")) },
	"cache file deleted":       func(c *changing) { require.NoError(c, os.Remove(c.anyFile("build/cache"))) },
	"cache deleted":            func(c *changing) { require.NoError(c, os.RemoveAll(c.path("build/cache"))) },
	"site deleted":             func(c *changing) { require.NoError(c, os.RemoveAll(c.path("build/site"))) },
	"build deleted":            func(c *changing) { require.NoError(c, os.RemoveAll(c.path("build"))) },
	"teacher's copy":           func(c *changing) { twodip("build", "--for", "teacher", "--wall", c.dir) },
}

// alter changes a byte in the middle of a file and leaves its size.
func (c *changing) alter(path string) {
	data, err := os.ReadFile(path)
	require.NoError(c, err)
	data[len(data)/2] ^= 1
	require.NoError(c, os.WriteFile(path, data, 0o644))
}

// tree is every file below a folder with its bytes.
func tree(t *testing.T, dir string) map[string]string {
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		all[filepath.ToSlash(rel)] = string(data)
		return err
	}))
	return all
}

// makeAgain measures and builds, and returns the site.
func (c *changing) makeAgain(dir, change string) map[string]string {
	_, _, errs := twodip("measure", "--wall", dir)
	status, _, built := twodip("build", "--wall", dir)
	require.Equal(c, 0, status, "%s: %s %s", change, errs, built)
	return tree(c.T, filepath.Join(dir, "build", "site"))
}

// TestBuiltAgainIsBuiltAnew changes a wall over and over and holds what measure
// and build make of it, file for file and byte for byte, against what they make
// of a copy of the wall that was never built.
func TestBuiltAgainIsBuiltAnew(t *testing.T) {
	was := ownSum
	t.Cleanup(func() { ownSum = was })
	ownSum = func() string { return "a" }
	steps := len(changes)
	if os.Getenv("TWODIP_LONG") != "" {
		steps *= 10
	}
	c := &changing{t, t.TempDir(), rand.New(rand.NewPCG(8, 3))}
	c.put("wall.yaml", "name: A wall\ntile:\n  layout: ends\n  first-dip: 54\n  second-dip: 54\n")
	c.put("content/glazes.csv", "code,name\nQM,Quarry Milk\nLR,Lamp Rust\n")
	c.put("content/stir.md", "# Stirring\n\nStir to the bottom. ![A shelf](shelf.jpg)\n")
	c.put("tiles/plan.csv", "tile,first,second,status\n1,QM,,planned\n2,QM,LR,planned\n3,LR,QM,planned\n4,LR,,planned\n")
	for _, name := range []string{"1.jpg", "2.jpg", "3.jpg"} {
		c.photo(name)
	}
	c.makeAgain(c.dir, "first")
	names := slices.Sorted(maps.Keys(changes))
	for step := range steps {
		if step%len(names) == 0 {
			c.r.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
		}
		name := names[step%len(names)]
		changes[name](c)
		again := c.makeAgain(c.dir, name)
		copied := filepath.Join(t.TempDir(), "wall")
		require.NoError(t, os.CopyFS(copied, os.DirFS(c.dir)))
		require.NoError(t, os.RemoveAll(filepath.Join(copied, "build")))
		anew := c.makeAgain(copied, name)
		for file, text := range anew {
			if again[file] != text {
				t.Errorf("after %q (step %d): %s is not what is built anew", name, step, file)
			}
		}
		assert.Equal(t, len(anew), len(again), "after %q: files that are not built anew", name)
	}
}

// TestNothingChangedWritesNothing holds the times of all that is made.
func TestNothingChangedWritesNothing(t *testing.T) {
	dir := photoWall(t)
	twodip("measure", "--wall", dir)
	twodip("build", "--wall", dir)
	before := times(t, dir)
	time.Sleep(20 * time.Millisecond)
	twodip("measure", "--wall", dir)
	status, out, errs := twodip("build", "--wall", dir)
	require.Equal(t, 0, status, errs)
	assert.Contains(t, out, "nothing has changed since the last build")
	after := times(t, dir)
	for name, when := range before {
		if !strings.HasPrefix(name, "build/cache/") && !strings.HasPrefix(name, ".") {
			assert.Equal(t, when, after[name], name)
		}
	}

	// One word of a glaze's finish: only what shows it is another file.
	require.NoError(t, os.WriteFile(filepath.Join(dir, "content/glazes.csv"), []byte("code,name,finish\nQM,Quarry Milk,\nLR,Lamp Rust,gloss\n"), 0o644))
	_, out, _ = twodip("build", "--wall", dir)
	assert.NotContains(t, out, "nothing has changed")
	after = times(t, dir)
	for name, other := range map[string]bool{"glaze/LR.html": true, "data/columns.js": true, "glaze/QM.html": false, "tile/1.html": false, "look.css": false, "picture/1.jpg": false} {
		name = "build/site/" + name
		assert.Equal(t, other, before[name] != after[name], name)
	}
}

func times(t *testing.T, dir string) map[string]time.Time {
	all := map[string]time.Time{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		rel, _ := filepath.Rel(dir, p)
		all[filepath.ToSlash(rel)] = info.ModTime()
		return err
	}))
	return all
}
