//go:build linux

package main

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

var placeWeapons = []weapon{
	{"link, pipe or folder in a file's place", inPlaceOf},
	{"link or pipe among photos, pages or themes", besideOthers},
	{"file larger than memory", sparseFile},
	{"what commands keep for themselves", keptByCommands},
	{"words of a command", hostileCommand},
}

// putOther puts what is no file of words where one is looked for.
func putOther(t *testing.T, r *rand.Rand, path string) {
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.RemoveAll(path))
	beside := path + ".beside.tmp"
	switch r.IntN(7) {
	case 0:
		require.NoError(t, syscall.Mkfifo(path, 0o644))
	case 1:
		require.NoError(t, os.Mkdir(path, 0o755))
	case 2:
		require.NoError(t, os.Symlink(filepath.Base(path), path))
	case 3:
		require.NoError(t, os.Symlink(pick(r, "/dev/zero", "/dev/tty", "/etc/passwd", "/", "/proc/self/mem", ".."), path))
	case 4:
		require.NoError(t, os.RemoveAll(beside))
		require.NoError(t, syscall.Mkfifo(beside, 0o644))
		require.NoError(t, os.Symlink(beside, path))
	case 5:
		require.NoError(t, os.Symlink("nowhere", path))
	default:
		require.NoError(t, os.WriteFile(path, nil, 0o000))
	}
}

var everyCommand = [][]string{{"check"}, {"plan"}, {"measure"}, {"print", "labels"}, {"build"}, {"trace"}, {"restore"}}

func inPlaceOf(r *rand.Rand, _ ready) attack {
	name := pick(r, "wall.yaml", "content", "content/glazes.csv", "content/our-studio.md", "content/buckets.csv", "tiles", "tiles/plan.csv", "tiles/measured.csv", "tiles/by-hand.csv", "tiles/log.csv", "tiles/log-waiting.csv", ".twodip.desk",
		"tiles/batches.csv", "tiles/loads.csv", "tiles/photos", "tiles/photos/1.jpg", "earlier", "build", "build/cache", "build/pictures", "build/contact", "build/site", ".twodip.lock", "themes")
	return attack{place: func(t *testing.T, dir string) { putOther(t, r, filepath.Join(dir, name)) }, commands: everyCommand}
}

func besideOthers(r *rand.Rand, _ ready) attack {
	return attack{place: func(t *testing.T, dir string) {
		for range 1 + r.IntN(4) {
			name := pick(r, "tiles/photos/4.jpg", "tiles/photos/more", "tiles/photos/4 a.png", "content/b.md", "content/pictures", "content/b.png", "themes/tile.html", "themes/style", "themes/look.css")
			putOther(t, r, filepath.Join(dir, name))
		}
		put(t, dir, "content/c.md", "# C\n\n![a](b.png) ![b](pictures/x.png) [c](b.md)\n")
		if r.IntN(2) == 0 {
			_ = os.Symlink("../../beside/secret.txt", filepath.Join(dir, "content/secret.png"))
			put(t, dir, "content/d.md", "# D\n\n![s](secret.png)\n")
		}
	}, commands: [][]string{{"check"}, {"measure"}, {"build"}, {"build"}}}
}

func sparseFile(r *rand.Rand, _ ready) attack {
	name := pick(r, "wall.yaml", "content/glazes.csv", "content/b.md", "content/b.mp4", "content/b.jpg", "tiles/plan.csv", "tiles/measured.csv", "tiles/by-hand.csv", "tiles/log.csv", "tiles/log-waiting.csv", "tiles/batches.csv", "tiles/loads.csv",
		"tiles/photos/4.jpg", "tiles/photos/film.mp4", "themes/tile.html", "themes/words.csv", "content/buckets.csv", "rows.csv", "rows.xlsx", "build/cache/wall.files", "earlier/tiles/plan.csv", ".twodip.owner")
	return attack{files: map[string]string{"content/c.md": "# C\n\n![a](b.mp4) ![b](b.jpg)\n"}, place: func(t *testing.T, dir string) {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o644))
		require.NoError(t, os.Truncate(filepath.Join(dir, name), 3<<30))
	}, commands: [][]string{{"check"}, {"measure"}, {"build"}, {"trace"}, {"log", "rows.csv"}, {"log", "rows.xlsx"}, {"find", "tiles/photos/4.jpg"}, {"restore"}}}
}

func keptByCommands(r *rand.Rand, w ready) attack {
	text := mangled(r, pick(r, w.texts["tiles/plan.csv"], "build/pictures/1-1280.jpg\t00\t1\n", "{}"))
	files := map[string]string{}
	for range 1 + r.IntN(3) {
		files[pick(r, "build/cache/wall.files", "build/cache/site.json", "build/contact/parts.json", "build/pictures/1-1280.jpg", "build/pictures/1-320.jpg", "build/site/index.html", "build/site/data/tiles.csv",
			"earlier/tiles/plan.csv", "earlier/tiles/plan 2026-11-12 10.20.30 00000000.csv", "earlier/x", ".twodip.owner", ".twodip.lock", "build/contact/1.html")] = text
	}
	return attack{files: files, place: func(t *testing.T, dir string) {
		for name := range w.cacheFiles(t, dir) {
			if r.IntN(2) == 0 {
				put(t, dir, name, mangled(r, text))
			}
		}
	}, commands: [][]string{{"check"}, {"measure"}, {"build"}, {"build"}, {"restore"}, {"restore", "tiles/plan.csv", "1"}}}
}

func (ready) cacheFiles(t *testing.T, dir string) map[string]string {
	out := map[string]string{}
	for name, sum := range hashesOfFiles(t, dir) {
		if strings.HasPrefix(name, "build/") || strings.HasPrefix(name, "earlier/") {
			out[name] = sum
		}
	}
	return out
}

func hostileCommand(r *rand.Rand, _ ready) attack {
	word := func() string {
		w := strings.ReplaceAll(hostileWord(r), "\x00", "")
		return w[:min(len(w), 100_000)] // the system takes no longer ones
	}
	var some [][]string
	for range 6 {
		some = append(some, pick(r, []string{word()}, []string{"find", word()}, []string{"find", "--tolerance", word()}, []string{"restore", word(), word()}, []string{"rename", word(), word()}, []string{"rename", "ZZ", word()},
			[]string{"measure", word()}, []string{"log", word()}, []string{"print", word()}, []string{"plan", "--why", word()}, []string{"check", "--wall", word()}, []string{"build", "--for", word()}, []string{"start", "/dev/null/x"},
			[]string{"foresee", word()}, []string{"measure", "../beside/secret.txt"}, []string{"measure", "/etc/passwd"}, []string{"find", "../beside/secret.txt"}, []string{"restore", "../beside/secret.txt"}, []string{"log", "../beside/secret.txt"},
			[]string{"check", "--json", "--wall", word()}))
	}
	return attack{commands: some}
}
