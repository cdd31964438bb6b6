//go:build linux

package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// attack is one hostile thing in a wall, and what is then asked of the wall.
type attack struct {
	files    map[string]string // put into the wall, by name
	place    func(t *testing.T, dir string)
	commands [][]string
}

// weapon makes attacks of one kind by chance.
type weapon struct {
	kind string
	make func(r *rand.Rand, w ready) attack
}

// ready is a small planned and measured wall to be attacked in copies.
type ready struct {
	dir   string
	texts map[string]string // what people write in it, by name
	photo []byte
}

func weapons() []weapon {
	var all []weapon
	for _, some := range [][]weapon{photoWeapons, tableWeapons, textWeapons, placeWeapons} {
		all = append(all, some...)
	}
	return all
}

// Hostile inputs of every kind that a wall can hold, made by chance from a
// seed, through the real commands: no fault of the program's, no memory without
// bound, and where something cannot be done a plain sentence that names a file.
// TWODIP_LONG=1 makes 300; TWODIP_SEED=n makes others.
func TestHostileInputs(t *testing.T) {
	seed, count := uint64(20), len(weapons())
	if os.Getenv("TWODIP_LONG") != "" {
		count = 300
	}
	if given, err := strconv.ParseUint(os.Getenv("TWODIP_SEED"), 10, 64); err == nil {
		seed = given
	}
	t.Logf("%d attacks from seed %d", count, seed)
	w := readyWall(t)
	most := &worst{}
	t.Cleanup(func() { t.Log(most) })
	for i := range count {
		weapon := weapons()[i%len(weapons())]
		t.Run(fmt.Sprintf("%d %s", i, weapon.kind), func(t *testing.T) {
			t.Parallel()
			w.suffer(t, weapon.make(rand.New(rand.NewPCG(seed, uint64(i))), w), most)
		})
	}
}

// worst is the longest and the largest of all commands under attack; a time is
// said and not held.
type worst struct {
	mu               sync.Mutex
	seconds          float64
	megabytes        int
	longest, largest string
}

func (w *worst) take(t *testing.T, args []string, seconds float64, megabytes int) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if seconds > w.seconds {
		w.seconds, w.longest = seconds, fmt.Sprintf("%s, %.40q", t.Name(), args)
	}
	if megabytes > w.megabytes {
		w.megabytes, w.largest = megabytes, fmt.Sprintf("%s, %.40q", t.Name(), args)
	}
}

func (w *worst) String() string {
	return fmt.Sprintf("longest: %.1f s (%s); largest: %d MB (%s)", w.seconds, w.longest, w.megabytes, w.largest)
}

func readyWall(t *testing.T) ready {
	w := ready{dir: smallWall(t, 3, nil), texts: map[string]string{}}
	finish(t, w.dir, "plan")
	for n := range tiles.Number(3) {
		photograph(t, w.dir, n+1, fmt.Sprintf("%d.jpg", n+1))
	}
	put(t, w.dir, "tiles/by-hand.csv", "photo,tile,outline,note\n2.jpg,2,20 20 200 20 200 280 20 280,by eye\n")
	put(t, w.dir, "tiles/loads.csv", "load,kiln,date,cones,tiles\nG7,Kiln,2026-03-14,top 6; middle 5½,1\n")
	put(t, w.dir, "tiles/batches.csv", "glaze,batch,mixed on\nQM,1,2026-02-01\n")
	put(t, w.dir, "content/buckets.csv", "glaze,state\nQM,low\n")
	finish(t, w.dir, "measure")
	for _, name := range []string{"wall.yaml", "content/glazes.csv", "content/our-studio.md", "content/buckets.csv", "tiles/plan.csv", "tiles/measured.csv",
		"tiles/by-hand.csv", "tiles/loads.csv", "tiles/batches.csv", "tiles/log.csv"} {
		text, err := os.ReadFile(filepath.Join(w.dir, name))
		require.NoError(t, err)
		w.texts[name] = string(text)
	}
	var err error
	w.photo, err = os.ReadFile(filepath.Join(w.dir, "tiles/photos/1.jpg"))
	require.NoError(t, err)
	return w
}

// suffer makes a copy of the wall suffer the attack, and judges what comes of it.
func (w ready) suffer(t *testing.T, a attack, most *worst) {
	dir := copyWall(t, w.dir)
	put(t, dir, "../beside/secret.txt", secret)
	for name, text := range a.files {
		put(t, dir, name, text)
	}
	if a.place != nil {
		a.place(t, dir)
	}
	before, readable := ofPeople(t, dir), canBeRead(dir)
	for _, args := range a.commands {
		start := time.Now()
		said, status, mb := attacked(t, dir, args)
		most.take(t, args, time.Since(start).Seconds(), mb)
		judgeWords(t, args, said, status)
		assert.Less(t, mb, 700, "megabytes of %.100q", args)
	}
	assert.Empty(t, differences(before, ofPeople(t, dir)), "what people wrote is left as it was")
	for name, ok := range readable {
		assert.True(t, !ok || canBeRead(dir)[name], "%s could be read and cannot be any more", name)
	}
	judgeLeft(t, dir)
}

const secret = "SECRETxWv"

// attacked is peak with an end to it, for what would never end.
func attacked(t *testing.T, dir string, args []string) (said string, status, megabytes int) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 5*time.Minute)
	defer cancel()
	c := exec.CommandContext(ctx, "twodip-peak", args...)
	c.Dir = dir
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	_ = c.Run()
	require.NoError(t, ctx.Err(), "it does not end")
	megabytes, err := strconv.Atoi(out.String())
	require.NoError(t, err, "%s", errs.String())
	return errs.String(), c.ProcessState.ExitCode(), megabytes
}

var (
	// fault is what no user may ever see; libraries' is how they talk among themselves.
	fault     = regexp.MustCompile(`panic|goroutine|runtime error|fatal error|signal:|twodip itself failed|<nil>|%!|/src/|\.go:\d`)
	libraries = regexp.MustCompile(`(?i)unmarshal|strconv|invalid syntax|unexpected eof|invalid character|no such file or directory|(^|: )is a directory|not a directory|too many levels|` +
		`permission denied|invalid argument|input/output error|not permitted|too long$|no such device|unknown anchor|did not find|while (parsing|scanning)|` +
		`(^|[\s:])(yaml|template|zlib|flate|zip|xml|jpeg|png|tiff|webp|gif|heic|bufio|exif|icc): |overflow|out of range \[|index out|(^|\s)EOF\b|errno|bad file descriptor`)
	controls   = regexp.MustCompile(`[\x00-\x08\x0b-\x1f\x7f\x{202a}-\x{202e}\x{2066}-\x{2069}]`)
	namesAFile = regexp.MustCompile(`(?m)^\S.*?(:\d+)?: \S`)
)

func judgeWords(t *testing.T, args []string, said string, status int) {
	t.Helper()
	assert.Contains(t, []int{0, 1, 2}, status, "%.100q says %.2000q", args, said)
	for line := range strings.Lines(said) {
		for _, bad := range []*regexp.Regexp{fault, libraries, controls} {
			if found := bad.FindString(strings.TrimSuffix(line, "\n")); found != "" {
				t.Errorf("%.100q says %.400q, with %q", args, line, found)
			}
		}
	}
	assert.True(t, utf8.ValidString(said), "%q", said)
	if len(said) > 20_000 {
		t.Errorf("%.100q says %d letters, which nobody reads: %.300q", args, len(said), said)
	}
	if status == 1 && !namesAFile.MatchString(said) {
		t.Errorf("%.100q names no file: %.400q", args, said)
	}
}

// ofPeople is what people keep in a wall and no command may change.
func ofPeople(t *testing.T, dir string) map[string]string {
	all := map[string]string{}
	for name, sum := range hashesOfFiles(t, dir) {
		if name == "wall.yaml" || strings.HasPrefix(name, "content/") || strings.HasPrefix(name, "themes/") || strings.HasPrefix(name, "tiles/photos/") ||
			name == record.ByHandFile || name == record.BatchesFile || name == record.LoadsFile {
			all[name] = sum
		}
	}
	return all
}

// hashesOfFiles is the sum of every file below a folder, or what else it is: a
// link, a pipe; of one too large to be read only its size.
func hashesOfFiles(t *testing.T, dir string) map[string]string {
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(dir, path)
		all[rel] = fmt.Sprint(info.Mode(), info.Size())
		if info.Mode().IsRegular() && info.Size() < 64<<20 {
			data, err := os.ReadFile(path)
			all[rel] = fmt.Sprintf("%x", sha256.Sum256(data))
			return err
		}
		return nil
	}))
	return all
}

// canBeRead says which tables that commands write can be read.
func canBeRead(dir string) map[string]bool {
	at := folder.At(dir)
	_, plan := record.ReadTiles(at)
	_, readings := record.ReadReadings(at)
	_, log := record.ReadLog(at, tiles.LogSettings{})
	return map[string]bool{record.PlanFile: plan == nil, record.MeasuredFile: readings == nil, record.LogFile: log == nil}
}

// judgeLeft looks for what is half-written, outside the wall, or of outside.
func judgeLeft(t *testing.T, dir string) {
	above, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	assert.Len(t, above, 2, "the wall and what lay beside it: %v", above)
	for name := range hashesOfFiles(t, dir) {
		assert.NotContains(t, name, folder.TempPrefix)
		if info, err := os.Lstat(filepath.Join(dir, name)); strings.HasPrefix(name, "build/") && err == nil && info.Mode().IsRegular() {
			text, err := os.ReadFile(filepath.Join(dir, name))
			require.NoError(t, err)
			assert.NotContains(t, string(text), secret, name)
		}
	}
}
