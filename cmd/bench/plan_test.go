package bench

import (
	"net/http"
	"net/url"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

const sixGlazes = "code,name\nQM,Quarry Milk\nLR,Lamp Rust\nFG,Fen Glass\nOH,Oat Husk\nPI,Pitch\nNO,<script>alert(1)</script>\n"

// glazed is a wall of six glazes.
func glazed(t *testing.T) folder.Folder {
	t.Helper()
	dir := newWall(t)
	_ = os.Remove(dir.Path(content.GlazesYAML))
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(sixGlazes)))
	return dir
}

func read(t *testing.T, dir folder.Folder, file string) string {
	t.Helper()
	text, _, err := run.Look(dir, file)
	require.NoError(t, err)
	return string(text)
}

func TestAPlanIsLookedAtAndWrittenAsTheCommandWritesIt(t *testing.T) {
	dir := glazed(t)
	c := open(t, dir.Dir())
	p := c.get("/plan")
	require.Contains(t, p.main(), "36 new tiles")
	require.Contains(t, p.main(), "6 singles, 30 ordered pairs")
	require.False(t, dir.Has(record.PlanFile), "looking writes nothing")
	after := c.send(p, `form[action="/plan/apply"]`, "/plan/apply", nil)
	require.Contains(t, after.text, "Written to tiles/plan.csv: 36 tiles, 6 glazes")
	require.Contains(t, after.main(), "It is written; nothing would change.")
	require.Zero(t, after.Find("main script").Length(), "a name is a name")

	other := glazed(t)
	_, err := run.Plan(other, run.PlanWish{})
	require.NoError(t, err)
	require.Equal(t, read(t, other, record.PlanFile), read(t, dir, record.PlanFile))
}

func TestAPlanThatWasNotSeenIsNotWritten(t *testing.T) {
	dir := glazed(t)
	c := open(t, dir.Dir())
	p := c.get("/plan")
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(sixGlazes+"TB,Tarn Blue\n")))
	after := c.send(p, `form[action="/plan/apply"]`, "/plan/apply", nil)
	require.Contains(t, after.text, "Nothing was written: a file of the wall was changed since you looked.")
	require.Contains(t, after.main(), "49 new tiles")
	require.False(t, dir.Has(record.PlanFile))
}

func TestManyTilesRetireOnlyAfterAYesAndComeBack(t *testing.T) {
	dir := glazed(t)
	_, err := run.Plan(dir, run.PlanWish{})
	require.NoError(t, err)
	before := read(t, dir, record.PlanFile)
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(strings.Replace(sixGlazes, "PI,Pitch\n", "", 1))))
	c := open(t, dir.Dir())
	p := c.get("/plan")
	require.Contains(t, p.main(), "11 tiles retired")
	require.Contains(t, p.main(), "11 tiles would go out of use, tile 5 the first")
	asks := c.send(p, `form[action="/plan/apply"]`, "/plan/apply", nil)
	require.Equal(t, http.StatusUnprocessableEntity, asks.status)
	require.Contains(t, asks.main(), "Not written: this plan asks for your yes.")
	require.Equal(t, before, read(t, dir, record.PlanFile))
	done := c.send(asks, `form[action="/plan/apply"]`, "/plan/apply", url.Values{"yes": {"1"}})
	require.Contains(t, done.text, "Written to tiles/plan.csv")
	require.NotEqual(t, before, read(t, dir, record.PlanFile))
	back := c.send(done, `form[action="/plan/undo"]`, "/plan/undo", nil)
	require.Contains(t, back.text, "again. Numbers that were given since stay given")
	require.Equal(t, before, read(t, dir, record.PlanFile))
	require.NoError(t, dir.WriteBytes(record.PlanFile, []byte(before+"# a remark of mine\n")))
	stale := c.send(done, `form[action="/plan/undo"]`, "/plan/undo", nil)
	require.Equal(t, http.StatusConflict, stale.status, "it was changed by hand meanwhile")
	require.Contains(t, read(t, dir, record.PlanFile), "a remark of mine")
}

func TestAPairIsSkippedMadeWithCareAndExplained(t *testing.T) {
	dir := glazed(t)
	was := read(t, dir, content.SettingsFile)
	c := open(t, dir.Dir())
	p := c.get("/plan")
	require.Equal(t, 36, p.Find("table.pairs td a").Length())
	p = c.get(p.Find(`a[aria-label^="1st QM → 2nd NO"]`).AttrOr("href", ""))
	require.Contains(t, p.main(), "none speaks of this pair")
	skipped := c.send(p, `form[action="/plan/rule"]`, "/plan/rule", url.Values{"do": {"skip"}, "reason": {`ran: "twice"`}})
	require.Contains(t, skipped.text, "1st QM → 2nd NO is skipped: kept in wall.yaml.")
	require.Contains(t, skipped.main(), `ran: "twice" (wall.yaml:`)
	require.Equal(t, "skip", skipped.Find(`a[aria-label^="1st QM → 2nd NO"]`).Text())
	stale := c.send(p, `form[action="/plan/rule"]`, "/plan/rule", url.Values{"do": {"caution"}})
	require.Equal(t, http.StatusConflict, stale.status)
	back := c.send(skipped, `form[action="/plan/rule"]`, "/plan/rule", url.Values{"do": {"allow"}, "reason": {""}})
	require.Contains(t, back.text, "1st QM → 2nd NO is made")
	require.Equal(t, was, read(t, dir, content.SettingsFile), "not a letter is left of it")
	for _, wrong := range []string{"../../x,<b>", "QM,ZZ", "999"} {
		require.Contains(t, c.get("/plan?pair="+url.QueryEscape(wrong)).main(), "There is no tile and no glaze of that name")
	}
}

func TestAWallIsBegunSmall(t *testing.T) {
	dir := glazed(t)
	c := open(t, dir.Dir())
	p := c.get("/plan")
	cost := c.get("/plan/cost?glazes=4&most-glazes=6&partners=5&most-partners=5&both=1")
	require.Contains(t, cost.text, "16 tiles to make, a quarter of a load or less")
	after := c.send(p, `form[action="/plan/part"]`, "/plan/part", url.Values{"glazes": {"4"}})
	require.Contains(t, after.text, "The wall is begun with 4 glazes: kept in wall.yaml.")
	require.Contains(t, after.main(), "16 new tiles, a quarter of a load or less")
	require.Equal(t, "later", after.Find(`a[aria-label^="1st PI alone"]`).Text())
	whole := c.send(after, `form[action="/plan/part"]`, "/plan/part", url.Values{"glazes": {"6"}})
	require.Contains(t, whole.main(), "36 new tiles")
	require.Equal(t, http.StatusUnprocessableEntity, c.get("/plan/cost?glazes=x").status)
}

func TestAWallWithoutGlazesSaysWhatKeepsItFromAPlan(t *testing.T) {
	dir := glazed(t)
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte("code,name\nQM,a\nQM,b\n")))
	p := open(t, dir.Dir()).get("/plan")
	require.Equal(t, http.StatusOK, p.status)
	require.Contains(t, p.main(), "content/glazes.csv:3: the code QM is also in line 2")
}

func TestThePlanPageSaysWhatToDoHereAndNotInATerminal(t *testing.T) {
	dir := planned(t)
	require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(strings.Replace(sixGlazes, "LR,Lamp Rust", "LX,Lamp Red", 1))))
	c := open(t, dir.Dir())
	p := c.get("/plan")
	require.Contains(t, p.main(), "LR left the list and LX came: if that is one bucket under a new code, put the old code back, then rename it")
	require.NotContains(t, p.main(), "twodip")
}

func TestADamagedPlanIsBroughtBackOnItsPage(t *testing.T) {
	dir := planned(t)
	whole := read(t, dir, record.PlanFile)
	cut := whole[:strings.LastIndex(strings.TrimSuffix(whole, "\n"), "\n")+1]
	require.NoError(t, dir.WriteBytes(record.PlanFile, []byte(cut)))
	c := open(t, dir.Dir())
	p := c.get("/plan")
	require.Contains(t, p.main(), "No plan can be made yet")
	require.Equal(t, 1, p.Find(`form[action="/plan/undo"]`).Length(), p.main())
	p = c.send(p, `form[action="/plan/undo"]`, "/plan/undo", nil)
	require.Contains(t, p.main(), "nothing would change", p.text)
	require.Equal(t, whole, read(t, dir, record.PlanFile))
}
