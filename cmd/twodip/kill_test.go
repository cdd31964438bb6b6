package main

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
)

// killing is one command, a wall it is to be run on, and what is there before
// and after a run that nothing disturbs.
type killing struct {
	args   []string
	wall   string
	done   string // the same after such a run
	before map[string]string
	after  map[string]string
	takes  time.Duration

	changes []string // files that it changes one by one
}

// A command killed at any moment leaves every file as it was or as a finished
// run leaves it; check finds nothing wrong; the next run completes, and then
// all is as if nothing had happened. A third of the moments are spread evenly
// over the time that the command takes; a third follow on the first file that it
// begins, and a third on some file's change, to come between two files.
func TestKilledAtAnyMoment(t *testing.T) {
	t.Parallel()
	hits := 20 // of each of four commands while it runs
	switch {
	case os.Getenv("TWODIP_LONG") != "":
		hits = 500
	case testing.Short():
		hits = 10
	}
	const seed = 12
	t.Logf("moments by chance from seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	total := 0
	for _, k := range killings(t) {
		t.Run(k.args[0], func(t *testing.T) {
			seen := map[string]int{}
			moments := 0
			for ; moments-seen[endedFirst] < hits; moments++ {
				require.Less(t, moments, 10*hits, "too few kills come while it runs")
				moment := time.Duration(r.Float64() * float64(k.takes))
				signs := k.signs(r)
				seen[k.kill(t, signs[moments%len(signs)], moment)]++
			}
			t.Logf("%s takes %v here; %d moments: %s", k.args[0], k.takes.Round(time.Millisecond), moments, counts(seen))
			total += moments - seen[endedFirst]
		})
	}
	t.Logf("%d kills of running commands in all", total)
}

// What a killed command had got to.
const (
	beforeWriting = "before anything was written"
	whileWriting  = "while a file was being written"
	halfway       = "between two files"
	afterWriting  = "after everything was written"
	endedFirst    = "too late: it had ended"
)

func counts(seen map[string]int) string {
	var words []string
	for _, what := range []string{beforeWriting, whileWriting, halfway, afterWriting, endedFirst} {
		words = append(words, fmt.Sprintf("%d %s", seen[what], what))
	}
	return strings.Join(words, ", ")
}

// killings are the four commands that write what cannot be made again, or what
// people look at: each on a wall that has something to lose.
func killings(t *testing.T) []killing {
	dir := smallWall(t, 3, nil)
	rows := "piece,date,first,second,load,result,note\n"
	for i := range 200 {
		rows += fmt.Sprintf("new %d,2026-03-02,QM,FG,L9,good,\n", i)
	}
	var all []killing
	add := func(args ...string) {
		k := killing{args: args, wall: copyWall(t, dir), before: hashes(t, dir)}
		again := copyWall(t, dir)
		k.takes = timed(t, again, args)
		k.after, k.done = hashes(t, again), again
		k.takes = max(k.takes, timed(t, dir, args))
		require.Empty(t, differences(k.after, hashes(t, dir)), "%s does not do the same twice, so nothing can be compared", args[0])
		for _, name := range differences(k.before, k.after) {
			name = strings.TrimSuffix(name, added)
			if !strings.HasPrefix(name, "earlier/") && (!strings.HasPrefix(name, "build/site/") || name == "build/site/index.html") {
				k.changes = append(k.changes, name)
			}
		}
		all = append(all, k)
	}
	finish(t, dir, "plan")
	put(t, dir, "content/glazes.csv", demoLines(t, "content/glazes.csv", 5))
	put(t, dir, "tiles/new rows.csv", rows)
	add("plan")
	for n := range tiles.Number(4) {
		photograph(t, dir, n+1, fmt.Sprintf("%d.jpg", n+1))
	}
	finish(t, dir, "measure")
	photograph(t, dir, 3, "2.jpg")                                          // a photo taken again
	require.NoError(t, os.Remove(filepath.Join(dir, "tiles/photos/4.jpg"))) // one that is gone
	photograph(t, dir, 5, "5.jpg")                                          // and a new one
	add("measure")
	finish(t, dir, "build")
	put(t, dir, "content/our-studio.md", "# Changed\n\nAll of it.\n")
	put(t, dir, "content/glazes.csv", strings.ReplaceAll(demoLines(t, "content/glazes.csv", 5), "Fen Glass", "Fen Pane"))
	add("build")
	add("log", "tiles/new rows.csv")
	return all
}

func timed(t *testing.T, dir string, args []string) time.Duration {
	began := time.Now()
	finish(t, dir, args...)
	return time.Since(began)
}

// kill kills the command once, judges what it leaves, and says how far it was.
func (k killing) kill(t *testing.T, sign sign, moment time.Duration) string {
	t.Helper()
	dir := copyWall(t, k.wall)
	defer os.RemoveAll(dir)
	ended := k.start(t, dir, sign, moment)
	left := hashes(t, dir)
	k.judge(t, dir, left)
	for _, args := range [][]string{{"check"}, k.args} {
		status, out, errs := twodip(within(dir, args)...)
		require.Zero(t, status, "twodip %s: %s%s", args[0], out, errs)
	}
	require.Empty(t, differences(k.after, hashes(t, dir)), "the next run does not come to the same end")
	unfinished := slices.ContainsFunc(slices.Collect(maps.Keys(left)), isUnfinished)
	switch {
	case ended:
		return endedFirst
	case unfinished:
		return whileWriting
	case maps.Equal(left, k.before):
		return beforeWriting
	case maps.Equal(left, k.after):
		return afterWriting
	}
	return halfway
}

// within are the words by which this very process, which stands elsewhere, runs
// a command of a wall: only what is killed must be a process of its own.
func within(dir string, args []string) []string {
	words := []string{args[0], "--wall", dir}
	for _, file := range args[1:] {
		words = append(words, filepath.Join(dir, file))
	}
	return words
}

// start runs the command and kills it; ended says that it was over before.
func (k killing) start(t *testing.T, dir string, sign sign, moment time.Duration) (ended bool) {
	t.Helper()
	c := command(dir, k.args...)
	require.NoError(t, c.Start())
	gone := make(chan error, 1)
	go func() { gone <- c.Wait() }()
	if sign != nil {
		moment /= 20
		for end := time.Now().Add(2 * k.takes); !sign(dir) && time.Now().Before(end) && len(gone) == 0; {
			time.Sleep(50 * time.Microsecond)
		}
	}
	select {
	case err := <-gone:
		require.NoError(t, err)
		return true
	case <-time.After(moment):
	}
	_ = c.Process.Kill()
	return <-gone == nil
}

// sign is what to wait for before the moment begins; nil = the start.
type sign func(dir string) bool

// signs are the kinds that there are; the last is of a file chosen by chance.
func (k killing) signs(r *rand.Rand) []sign {
	if len(k.changes) < 2 {
		return []sign{nil, hasUnfinished}
	}
	name := k.changes[r.IntN(len(k.changes))]
	was, _ := os.Stat(filepath.Join(k.wall, name))
	changed := func(dir string) bool {
		now, err := os.Stat(filepath.Join(dir, name))
		return err == nil && (was == nil || now.Size() != was.Size() || !now.ModTime().Equal(was.ModTime()))
	}
	return []sign{nil, hasUnfinished, changed}
}

// isUnfinished knows what is being written by its name, as a person would who
// was told: it begins with .twodip-writing-, or lies in a folder that does.
func isUnfinished(name string) bool {
	return slices.ContainsFunc(strings.Split(name, "/"), func(part string) bool { return strings.HasPrefix(part, ".twodip-writing-") })
}

func hasUnfinished(dir string) bool {
	for _, folder := range []string{"tiles", "build", "build/pictures", "build/contact", "build/print"} {
		entries, _ := os.ReadDir(filepath.Join(dir, folder))
		if slices.ContainsFunc(entries, func(e os.DirEntry) bool { return isUnfinished(e.Name()) }) {
			return true
		}
	}
	return false
}

// judge holds every file to what it was or will be. The site's files change
// together.
func (k killing) judge(t *testing.T, dir string, left map[string]string) {
	t.Helper()
	names := map[string]bool{}
	for _, files := range []map[string]string{left, k.before, k.after} {
		for name := range files {
			names[name] = true
		}
	}
	for name := range names {
		now, was, will := left[name], k.before[name], k.after[name]
		switch {
		case isUnfinished(name):
		case strings.HasPrefix(name, "tiles/photos/"):
			require.Equal(t, was, now, "%s: a photo was touched", name)
		case k.args[0] == "measure" && (name == "tiles/measured.csv" || name == "tiles/plan.csv") && now != was && now != will:
			k.judgeRows(t, dir, name)
		default:
			require.Contains(t, []string{was, will}, now, "%s is neither as before nor as a finished run leaves it", name)
		}
	}
	now := filesBelow(left, "build/site/")
	if !maps.Equal(now, filesBelow(k.before, "build/site/")) {
		require.Empty(t, differences(filesBelow(k.after, "build/site/"), now), "the site is a mixture of two")
	}
}

// judgeRows holds a table that measure fills as photos are read, every few
// seconds: each of its rows is as it was or as a finished run leaves it.
func (k killing) judgeRows(t *testing.T, dir, name string) {
	t.Helper()
	known := map[string]bool{}
	for _, wall := range []string{k.wall, k.done} {
		text, err := os.ReadFile(filepath.Join(wall, name))
		require.NoError(t, err)
		for row := range strings.Lines(string(text)) {
			known[row] = true
		}
	}
	text, err := os.ReadFile(filepath.Join(dir, name))
	require.NoError(t, err)
	for row := range strings.Lines(string(text)) {
		require.True(t, known[row], "%s: this row is neither as before nor as a finished run leaves it: %s", name, row)
	}
}

const added = ", which was not there before"

// differences lists the files that are not the same.
func differences(want, got map[string]string) []string {
	var names []string
	for name := range want {
		if want[name] != got[name] {
			names = append(names, name)
		}
	}
	for name := range got {
		if _, ok := want[name]; !ok {
			names = append(names, name+added)
		}
	}
	slices.Sort(names)
	return names
}

func filesBelow(files map[string]string, folder string) map[string]string {
	out := map[string]string{}
	for name, sum := range files {
		if strings.HasPrefix(name, folder) {
			out[name] = sum
		}
	}
	return out
}
