package run

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// studio is a wall to which accidents happen, and what is true of its tiles:
// the clay does not change whatever becomes of the files.
type studio struct {
	*rand.Rand
	*testing.T
	dir  folder.Folder
	true map[tiles.Number][2]string // by name of the glaze, which no accident touches
	good map[string]string          // the files as the last plan that went through left them
}

const studioList = "code,name\nQM,Quarry Milk\nFG,Fen Glass\nLR,Lamp Rust\nOH,Oat Husk\n"

func newStudio(t *testing.T, seed uint64) *studio {
	s := &studio{Rand: rand.New(rand.NewPCG(seed, 13)), T: t, dir: folder.At(t.TempDir()), true: map[tiles.Number][2]string{}}
	s.put("wall.yaml", "name: A studio\n")
	s.put("content/glazes.csv", studioList)
	_, err := Plan(s.dir, PlanWish{})
	require.NoError(t, err)
	s.fire()
	s.note()
	return s
}

// note remembers a wall that a command has just found sound.
func (s *studio) note() {
	s.good = map[string]string{}
	for _, file := range []string{"content/glazes.csv", "tiles/measured.csv", "tiles/plan.csv"} {
		s.good[file] = s.text(file)
	}
}

// plan plans, and notes a wall for which that goes through.
func (s *studio) plan() {
	if _, err := Plan(s.dir, PlanWish{}); err == nil {
		s.note()
	}
}

// mend brings every file back as the last plan that went through left it.
func (s *studio) mend(what string) {
	for _, file := range []string{"content/glazes.csv", "tiles/measured.csv", "tiles/plan.csv"} {
		all, err := Earlier(s.dir)
		require.NoError(s, err)
		at := slices.IndexFunc(all, func(k Kept) bool {
			return k.File == file && s.kept(k) == s.good[file]
		})
		require.GreaterOrEqual(s, at, 0, "%s: %s is not kept as it was", what, file)
		_, err = Restore(s.dir, RestoreWish{File: file, Turn: all[at].Turn})
		require.NoError(s, err, what)
	}
	require.True(s, s.holds(what), "%s: mended, and still refused", what)
}

// kept is what a kept version holds.
func (s *studio) kept(k Kept) string {
	versions, err := earlier.List(s.dir)
	require.NoError(s, err)
	for _, v := range versions {
		if v.File == k.File && v.Turn == k.Turn {
			data, err := v.Read(s.dir)
			require.NoError(s, err)
			return string(data)
		}
	}
	return ""
}

func (s *studio) put(name, text string) {
	require.NoError(s, s.dir.WriteBytes(name, []byte(text)))
}

func (s *studio) text(name string) string {
	data, _ := s.dir.Read(name, 1<<20)
	return string(data)
}

// fire fires every planned tile as the plan says it and reads its color.
func (s *studio) fire() {
	c, err := take(s.dir)
	require.NoError(s, err)
	defer c.end()
	w, err := Load(s.dir)
	require.NoError(s, err)
	require.NoError(s, c.begin())
	for i, t := range w.Tiles {
		if t.Status != tiles.Planned {
			continue
		}
		w.Tiles[i].Status = tiles.Fired
		s.true[t.Number] = s.names(w, t.Pair)
		w.Readings = append(w.Readings, tiles.Reading{Tile: t.Number, Zone: tiles.ZoneWhole, L: 50, Photo: t.Number.String() + ".jpg", Carried: t.Pair})
	}
	require.NoError(s, record.WriteTiles(s.dir, w.Tiles))
	require.NoError(s, record.WriteReadings(s.dir, w.Readings))
}

func (s *studio) names(w tiles.Wall, p tiles.Pair) [2]string {
	n := [2]string{w.Glaze(p.First).Name}
	if p.Second != "" {
		n[1] = w.Glaze(p.Second).Name
	}
	return n
}

// holds: whatever is shown of a fired tile is what it was fired with, or the
// wall is refused with a sentence.
func (s *studio) holds(what string) bool {
	w, err := Load(s.dir)
	if err != nil {
		var ps Problems
		ps.Add(err)
		for _, p := range ps.Found {
			require.NotEmpty(s, p.What, what)
		}
		return false
	}
	for n, names := range s.true {
		t, ok := w.Tile(n)
		require.True(s, ok, "%s: tile %d is gone and nobody says so", what, n)
		for i, code := range []string{t.First, t.Second} {
			// A glaze that left the list is shown by its code.
			if _, listed := tiles.FindGlaze(w.Glazes, code); listed || code == "" {
				require.Equal(s, names[i], s.names(w, t.Pair)[i], "%s: tile %d is shown with other glazes than it was fired with", what, n)
			}
		}
	}
	return true
}

// accidents are what people do to files.
var accidents = []struct {
	name string
	do   func(*studio)
}{
	{"delete the plan", func(s *studio) { _ = os.Remove(s.dir.Path("tiles/plan.csv")) }},
	{"cut the plan short", func(s *studio) { s.put("tiles/plan.csv", cut(s.text("tiles/plan.csv"), s.Float64())) }},
	{"cut the readings short", func(s *studio) { s.put("tiles/measured.csv", cut(s.text("tiles/measured.csv"), s.Float64())) }},
	{"sort the rows of the plan", func(s *studio) { s.rows(func(rows []string) { slices.Sort(rows) }) }},
	{"sort one column of the plan by itself", func(s *studio) { s.column(1 + s.IntN(2)) }},
	{"delete a row of the plan", func(s *studio) {
		s.rows(func(rows []string) { rows[s.IntN(len(rows))] = "" })
	}},
	{"type a row twice", func(s *studio) { s.rows(func(rows []string) { rows[0] += rows[s.IntN(len(rows))] }) }},
	{"put an old copy back", func(s *studio) {
		versions, err := earlier.List(s.dir)
		require.NoError(s, err)
		if len(versions) > 0 {
			v := versions[s.IntN(len(versions))]
			data, err := v.Read(s.dir)
			require.NoError(s, err)
			s.put(v.File, string(data))
		}
	}},
	{"swap two codes in the plan", func(s *studio) {
		s.put("tiles/plan.csv", strings.NewReplacer("QM", "FG", "FG", "QM").Replace(s.text("tiles/plan.csv")))
	}},
	{"type another code in one row", func(s *studio) {
		s.rows(func(rows []string) {
			i := s.IntN(len(rows))
			rows[i] = strings.Replace(rows[i], "LR", "OH", 1)
		})
	}},
	{"type a new code over an old one in the list", func(s *studio) {
		s.put("content/glazes.csv", strings.Replace(s.text("content/glazes.csv"), "QM,", "QZ,", 1))
	}},
	{"cut the list to one row", func(s *studio) { s.put("content/glazes.csv", "code,name\nFG,Fen Glass\n") }},
	{"add a glaze as the first row", func(s *studio) {
		s.put("content/glazes.csv", strings.Replace(s.text("content/glazes.csv"), "name\n", "name\nZ"+fmt.Sprint(s.IntN(10))+",Zinc Moth\n", 1))
	}},
	{"give two glazes each other's code", func(s *studio) {
		s.put("content/glazes.csv", strings.NewReplacer("LR,", "OH,", "OH,", "LR,").Replace(s.text("content/glazes.csv")))
	}},
	{"lose the kept versions", func(s *studio) {
		// Where the wall is mangled and all that knows better is lost with
		// them, nothing on the disk could tell.
		if _, err := Load(s.dir); err == nil {
			s.put("content/glazes.csv", studioList)
			_ = os.RemoveAll(s.dir.Path("earlier"))
			s.good = nil
			s.plan()
		}
	}},
	{"plan", func(s *studio) { s.plan() }},
	{"rename", func(s *studio) { _, _ = Rename(s.dir, "OH", "OK") }},
	{"rename back", func(s *studio) { _, _ = Rename(s.dir, "OK", "OH") }},
	{"restore the plan", func(s *studio) { _, _ = Restore(s.dir, RestoreWish{File: "plan"}) }},
}

func cut(text string, share float64) string { return text[:int(share*float64(len(text)))] }

// rows changes the rows below the headings of the plan.
func (s *studio) rows(do func([]string)) {
	lines := strings.SplitAfter(s.text("tiles/plan.csv"), "\n")
	if len(lines) < 3 {
		return
	}
	do(lines[1 : len(lines)-1])
	s.put("tiles/plan.csv", strings.Join(lines, ""))
}

// column sorts one column of the plan and leaves the others.
func (s *studio) column(at int) {
	s.rows(func(rows []string) {
		var cells []string
		for _, r := range rows {
			if f := strings.Split(r, ","); len(f) > at {
				cells = append(cells, f[at])
			}
		}
		if len(cells) < len(rows) {
			return
		}
		slices.Sort(cells)
		for i, r := range rows {
			f := strings.Split(r, ",")
			f[at] = cells[i]
			rows[i] = strings.Join(f, ",")
		}
	})
}

// TestNoAccidentShowsATileAsAnother: after any sequence of what people do to
// their files no fired tile is shown with another pair than it was fired with.
func TestNoAccidentShowsATileAsAnother(t *testing.T) {
	refused, mended, sequences := 0, 0, uint64(40)
	if os.Getenv("TWODIP_LONG") != "" {
		sequences = 300
	}
	for seed := range sequences {
		s := newStudio(t, seed)
		said := ""
		for range 6 {
			a := accidents[s.IntN(len(accidents))]
			said += a.name + "; "
			a.do(s)
			if !s.holds(fmt.Sprintf("seed %d: %s", seed, said)) {
				refused++
			}
		}
		if s.good != nil {
			s.mend(fmt.Sprintf("seed %d: %s", seed, said))
			mended++
		}
	}
	t.Logf("of %d accidents %d left a wall that is refused; %d walls were brought back whole", 6*sequences, refused, mended)
}
