package bench

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
)

// TestANewWallIsBegun with its name and paper, and leads to its glazes.
func TestANewWallIsBegun(t *testing.T) {
	c := open(t, "")
	dir := filepath.Join(t.TempDir(), "our wall é")
	p := c.post("/new", "name", `Café: "west" # wall`, "place", dir, "paper", "a4", "glazes", "12")
	require.Equal(t, "/glazes", p.path, p.main())
	require.Contains(t, p.text, "Its files are in")
	require.Equal(t, 12, p.Find(".glazes tbody").Length())
	s, err := content.ReadSettings(folder.At(dir))
	require.NoError(t, err)
	require.Equal(t, `Café: "west" # wall`, s.Name)
	require.Equal(t, "a4", s.Paper)
	starter, err := content.Starter()
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join(dir, content.SettingsFile))
	require.NoError(t, err)
	was, is := strings.Split(string(starter[content.SettingsFile]), "\n"), strings.Split(string(text), "\n")
	require.Len(t, is, len(was))
	for i, line := range was {
		if !strings.HasPrefix(line, "name:") && !strings.HasPrefix(line, "paper:") {
			require.Equal(t, line, is[i])
		}
	}
	require.Contains(t, c.get("/").main(), dir, "it was opened lately")
}

// TestWrongNamesAreSaidBesideTheirField, with what was typed still there.
func TestWrongNamesAreSaidBesideTheirField(t *testing.T) {
	c := open(t, "")
	full := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(full, "x"), nil, 0o644))
	for _, w := range []struct{ name, place, glazes, at, says string }{
		{"", filepath.Join(full, "new"), "12", "#w-name", "Give the wall a name"},
		{strings.Repeat("é", 81), filepath.Join(full, "new"), "12", "#w-name", "1 to 80 letters"},
		{"a", full, "12", "#w-place", "is there already and is not empty; name a new folder."},
		{"a", "here", "12", "#w-place", "type the whole path"},
		{"a", " ", "12", "#w-place", "No folder is named"},
		{"a", filepath.Join(full, "x", "y"), "12", "#w-place", "x/y"},
		{"a", filepath.Join(full, "new"), "many", "#w-glazes", "from 1 to 300"},
		{"a", filepath.Join(full, "new"), "301", "#w-glazes", "from 1 to 300"},
	} {
		p := c.post("/new", "name", w.name, "place", w.place, "paper", "letter", "glazes", w.glazes)
		require.Equal(t, 422, p.status, w)
		require.Contains(t, p.Find(w.at).Text(), w.says)
		require.Equal(t, w.place, p.Find("#place").AttrOr("value", ""))
		require.NoDirExists(t, filepath.Join(full, "new"))
	}
	p := c.post("/open", "place", full)
	require.Contains(t, p.Find("#w-named").Text(), "it holds no wall.yaml")
	require.Equal(t, full, p.Find("#named").AttrOr("value", ""))
	dir := newWall(t).Dir()
	require.Equal(t, "/glazes", c.post("/open", "place", `"`+filepath.Join(dir, "wall.yaml")+`"`).path)
}

// TestTheInventedStudioIsStopped, and what was made by then is a wall.
func TestTheInventedStudioIsStopped(t *testing.T) {
	c := open(t, "")
	dir := filepath.Join(t.TempDir(), "studio")
	p := c.post("/invented", "place", dir)
	require.Equal(t, "/glazes", p.path, p.main())
	require.Equal(t, "Quarry Milk", p.value("name.0"))
	require.Equal(t, 422, c.post("/open", "place", newWall(t).Dir()).status, "no other wall while it is at work")
	c.post("/work/stop")
	require.Eventually(t, func() bool { return strings.Contains(c.get("/glazes").text, "Stopped. What was made by then") }, time.Minute, 50*time.Millisecond)
	_, err := content.ReadGlazes(folder.At(dir))
	require.NoError(t, err)
}

// TestTwiceStartedShowsTheOneThatRuns, and one that has ended is forgotten.
func TestTwiceStartedShowsTheOneThatRuns(t *testing.T) {
	dir := newWall(t).Dir()
	first := open(t, dir)
	second := openWish(t, Wish{Wall: dir})
	require.Equal(t, first.address, second.address)
	require.NoError(t, <-second.ended)
	second.ended <- nil
	other := openWish(t, Wish{Wall: newWall(t).Dir()})
	require.NotEqual(t, first.address, other.address)
	first.end()
	require.NoError(t, <-first.ended)
	first.ended <- nil
	require.NotEqual(t, first.address, openWish(t, Wish{Wall: dir}).address)
}

// TestItEndsWhenNobodyLooks any more.
func TestItEndsWhenNobodyLooks(t *testing.T) {
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	c := openWish(t, Wish{Wall: newWall(t).Dir(), Idle: 200 * time.Millisecond})
	select {
	case err := <-c.ended:
		require.NoError(t, err)
		c.ended <- nil
	case <-time.After(time.Minute):
		t.Fatal("it goes on")
	}
}
