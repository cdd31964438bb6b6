package record

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

func logOf(t require.TestingT, dir folder.Folder) string {
	text, err := os.ReadFile(dir.Path(LogFile))
	require.NoError(t, err)
	return string(text)
}

func arrival(key, first string) Arrival {
	return Arrival{Key: key, Piece: tiles.Piece{Pair: tiles.Pair{First: first}, Date: "2026-03-02", Maker: "=ab"}}
}

// TestWhatWaitsIsReadWithTheLogAndTakenUpOnce has a log with headings of its
// owner's, and a crash between the two writes of taking up.
func TestWhatWaitsIsReadWithTheLogAndTakenUpOnce(t *testing.T) {
	dir := folder.At(t.TempDir())
	s := tiles.LogSettings{Headings: map[string]string{"Topf": "piece", "Grund": "first"}}
	was := "# Ofenbuch\r\nTopf;Grund;Laune\r\n7;QM;heiter\r\n"
	require.NoError(t, dir.WriteBytes(LogFile, []byte(was)))
	var d Desk
	called, err := d.PutBy(dir, s, []Arrival{arrival("a", "FG"), arrival("b", "OH"), arrival("a", "FG")})
	require.NoError(t, err)
	assert.Equal(t, []string{"8", "9", "8"}, called)
	called, err = (&Desk{}).PutBy(dir, s, []Arrival{arrival("b", "OH"), arrival("c", "QM")})
	require.NoError(t, err)
	assert.Equal(t, []string{"9", "10"}, called, "another door of the same wall")
	assert.Equal(t, was, logOf(t, dir), "the log is somebody else’s just now")

	l, err := ReadLog(dir, s)
	require.NoError(t, err)
	assert.Equal(t, 4, l.Len())
	var ids, firsts []string
	for p := range l.Each() {
		ids, firsts = append(ids, p.ID), append(firsts, p.First)
	}
	assert.Equal(t, []string{"7", "8", "9", "10"}, ids)
	assert.Equal(t, []string{"QM", "FG", "OH", "QM"}, firsts)
	rows, err := NotLookedAt(dir, s)
	require.NoError(t, err)
	assert.Len(t, rows, 3)

	waits, err := os.ReadFile(dir.Path(WaitingFile))
	require.NoError(t, err)
	assert.NotContains(t, string(waits), ",=ab", "no cell starts a formula")
	require.NoError(t, Fold(dir, s))
	assert.False(t, Waits(dir))
	now := logOf(t, dir)
	assert.True(t, strings.HasPrefix(now, "# Ofenbuch\r\nTopf;Grund;Laune;"), now)
	assert.Contains(t, now, "\r\n7;QM;heiter\r\n8;FG;;")

	require.NoError(t, dir.WriteBytes(WaitingFile, waits)) // as a crash leaves it
	l, err = ReadLog(dir, s)
	require.NoError(t, err)
	assert.Equal(t, 4, l.Len())
	called, err = d.Take(dir, s, []Arrival{arrival("c", "QM"), arrival("d", "QM")})
	require.NoError(t, err)
	assert.Equal(t, []string{"10", "11"}, called)
	assert.False(t, Waits(dir))
	assert.True(t, strings.HasPrefix(logOf(t, dir), now))
	assert.Equal(t, strings.Count(now, "\n")+1, strings.Count(logOf(t, dir), "\n"))
}

// TestALineThatACrashCutIsNoRow cuts what waits at every byte: the rows whose
// ends are there count, and the next one comes below them.
func TestALineThatACrashCutIsNoRow(t *testing.T) {
	dir := folder.At(t.TempDir())
	var s tiles.LogSettings
	_, err := (&Desk{}).PutBy(dir, s, []Arrival{arrival("a", "FG"), arrival("ä\"\n,b", "OH"), arrival("c", "QM")})
	require.NoError(t, err)
	whole, err := os.ReadFile(dir.Path(WaitingFile))
	require.NoError(t, err)
	require.Equal(t, 4, bytes.Count(whole, []byte("\n")))
	for n := range len(whole) {
		require.NoError(t, os.WriteFile(dir.Path(WaitingFile), whole[:n], 0o644))
		got, err := CountWaiting(dir)
		require.NoError(t, err, "cut at %d", n)
		want := max(0, bytes.Count(whole[:n], []byte("\n"))-1)
		require.Equal(t, want, got, "cut at %d", n)
		if n%31 == 0 {
			_, err := (&Desk{}).PutBy(dir, s, []Arrival{arrival("z", "QM")})
			require.NoError(t, err)
			got, err = CountWaiting(dir)
			require.NoError(t, err)
			require.Equal(t, want+1, got)
		}
	}
}

// TestBesideTheLogIsAsInIt does the same things to two logs, to one of them now
// and then while a command has it: everything is answered, and comes to stand,
// as in the other.
func TestBesideTheLogIsAsInIt(t *testing.T) {
	seeds := 20
	if os.Getenv("TWODIP_LONG") != "" {
		seeds = 1000
	}
	for seed := range seeds {
		r := rand.New(rand.NewPCG(uint64(seed), 17))
		inIt, beside := aFreshLog(t), aFreshLog(t)
		for range 1 + r.IntN(12) {
			one := anything(r)
			if r.IntN(2) == 0 {
				require.NoError(t, Fold(beside.dir, tiles.LogSettings{}))
				require.Equal(t, inIt.now(one), beside.now(one), "seed %d: %+v", seed, one)
			} else {
				require.Equal(t, inIt.now(one), beside.later(one), "seed %d: %+v", seed, one)
			}
		}
		require.NoError(t, Fold(beside.dir, tiles.LogSettings{}))
		require.Equal(t, logOf(t, inIt.dir), logOf(t, beside.dir), "seed %d", seed)
	}
}

// aLog is a log with two pieces, one of which has come out.
type aLog struct {
	dir  folder.Folder
	desk *Desk
}

func aFreshLog(t *testing.T) aLog {
	dir := folder.At(t.TempDir())
	head := strings.Join(slices.Concat(LogColumns, []string{LookedColumn, KeyColumn}), ",") + "\n"
	require.NoError(t, dir.WriteBytes(LogFile, []byte(head+"P1,2026-03-01,,,,QM,,,,,,,,,,,,,,\nP2,2026-03-01,,,,QM,,,,,,G1,top,good,,,,,,\n")))
	return aLog{dir, &Desk{}}
}

// thing is what a phone may send.
type thing struct {
	do, piece, key string
	cells          Cells
}

func anything(r *rand.Rand) thing {
	cells := []Cells{{"load": "G2", "shelf": "low"}, {"load": "G3"}, {"result": "good"}, {"result": "fault", "faults": "crawling", "zone": "first"}}
	return thing{[]string{"piece", "fill", "empty"}[r.IntN(3)], []string{"P1", "p2", "1", "2", "nobody"}[r.IntN(5)], []string{"a", "b", "c"}[r.IntN(3)], cells[r.IntN(4)]}
}

func (l aLog) now(a thing) string {
	var s tiles.LogSettings
	switch a.do {
	case "piece":
		called, err := l.desk.Take(l.dir, s, []Arrival{arrival(a.key, "FG")})
		return fmt.Sprint(called, err)
	case "fill":
		filled, err := FillPiece(l.dir, s, a.piece, a.cells)
		return fmt.Sprint(filled, err)
	}
	return fmt.Sprint(EmptyPiece(l.dir, s, a.piece, a.cells))
}

func (l aLog) later(a thing) string {
	var s tiles.LogSettings
	switch a.do {
	case "piece":
		called, err := l.desk.PutBy(l.dir, s, []Arrival{arrival(a.key, "FG")})
		return fmt.Sprint(called, err)
	case "fill":
		filled, err := SayLater(l.dir, s, a.piece, a.cells)
		return fmt.Sprint(filled, err)
	}
	return fmt.Sprint(TakeBackLater(l.dir, s, a.piece, a.cells))
}
