package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/jpeg"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// smallWall is the demo cut to its first glazes: the files of a wall before
// anything is planned, without photos. extra is put beside or over them.
func smallWall(t testing.TB, glazes int, extra map[string]string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "wall")
	require.NoError(t, produce.InventedWall(dir))
	put(t, dir, "content/glazes.csv", demoLines(t, "content/glazes.csv", glazes+1))
	put(t, dir, "wall.yaml", strings.NewReplacer("HG", "QM", "SF", "OH", "controls: [HS]", "controls: []").Replace(demoLines(t, "wall.yaml", 1000)))
	put(t, dir, "tiles/log.csv", demoLines(t, "tiles/log.csv", 30))
	put(t, dir, "tiles/batches.csv", demoLines(t, "tiles/batches.csv", 1))
	put(t, dir, "content/buckets.csv", demoLines(t, "content/buckets.csv", 1))
	for name, text := range extra {
		put(t, dir, name, text)
	}
	return dir
}

// demoLines is the beginning of a file of the demo.
func demoLines(t testing.TB, name string, lines int) string {
	t.Helper()
	files, err := demo.Files()
	require.NoError(t, err)
	maps.Copy(files, demo.Records())
	all := strings.SplitAfter(string(files[name]), "\n")
	return strings.Join(all[:min(lines, len(all))], "")
}

func put(t testing.TB, dir, name, text string) {
	t.Helper()
	path := filepath.Join(dir, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

// studio is made once: its noise takes half a second.
var studio = sync.OnceValue(func() *demo.Studio {
	return demo.NewStudio(tiles.Shape{Width: 60, Height: 90, Foot: 25, Bare: 12, Layout: tiles.LayoutSides, FirstDip: 40, SecondDip: 40}, demo.Seed)
})

// smallPhoto is a made photo of a tile, a quarter of the demo's on each side.
func smallPhoto(t testing.TB, tile tiles.Tile) []byte {
	t.Helper()
	full, _ := studio().Picture(tile)
	small := image.NewRGBA(image.Rect(0, 0, demo.Width/4, demo.Height/4))
	draw.BiLinear.Scale(small, small.Rect, full, full.Rect, draw.Src, nil)
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, small, nil))
	return b.Bytes()
}

// photograph puts a small photo of a planned tile below tiles/photos.
func photograph(t testing.TB, dir string, number tiles.Number, name string) {
	t.Helper()
	ts, err := record.ReadTiles(folder.At(dir))
	require.NoError(t, err)
	for _, tile := range ts {
		if tile.Number == number {
			put(t, dir, "tiles/photos/"+name, string(smallPhoto(t, tile)))
			return
		}
	}
	require.Fail(t, "no such tile", "%d", number)
}

// command is this very program as a process of its own, at work in the wall
// that is its current folder.
func command(dir string, args ...string) *exec.Cmd {
	c := exec.Command("twodip", args...)
	c.Dir = dir
	return c
}

// finish runs a command as a process and gives all it said.
func finish(t testing.TB, dir string, args ...string) string {
	t.Helper()
	said, err := command(dir, args...).CombinedOutput()
	require.NoError(t, err, "twodip %s: %s", strings.Join(args, " "), said)
	return string(said)
}

// isKept says that a file is an earlier version of a person's file. How many
// there are depends on how often a run was stopped; each is held to being whole,
// by the sum in its name.
func isKept(t testing.TB, name, sum string) bool {
	if !strings.HasPrefix(name, earlier.Folder+"/") {
		return false
	}
	if !isUnfinished(name) {
		require.Contains(t, name, " "+sum[:8]+".", "%s does not hold what its name says", name)
	}
	return true
}

// hashes gives every file below the folder and what is in it. The lock stays
// behind on purpose and is left out; so is the cache, which holds the times of
// files and may be lost or cut short at any time (see incremental_test.go).
func hashes(t testing.TB, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == folder.LockFile {
			if err == nil && d.IsDir() && d.Name() == "cache" {
				return fs.SkipDir
			}
			return err
		}
		data, err := os.ReadFile(path)
		sum := sha256.Sum256(data)
		rel, _ := filepath.Rel(dir, path)
		if isKept(t, filepath.ToSlash(rel), hex.EncodeToString(sum[:])) {
			return err
		}
		all[filepath.ToSlash(rel)] = hex.EncodeToString(sum[:])
		return err
	})
	require.NoError(t, err)
	return all
}

// copyWall copies a wall with the times of its files.
func copyWall(t testing.TB, from string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "wall")
	require.NoError(t, os.CopyFS(to, os.DirFS(from)))
	err := filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(from, path)
		return os.Chtimes(filepath.Join(to, rel), info.ModTime(), info.ModTime())
	})
	require.NoError(t, err)
	return to
}
