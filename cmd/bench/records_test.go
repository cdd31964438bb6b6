package bench

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// studio is the invented studio with its year of records, planned, without photos.
func studio(t *testing.T) folder.Folder {
	t.Helper()
	files, err := demo.Files()
	require.NoError(t, err)
	dir := t.TempDir() + "/wall"
	require.NoError(t, folder.Make(dir, files))
	wall := folder.At(dir)
	_, err = run.Plan(wall, run.PlanWish{})
	require.NoError(t, err)
	for name, data := range demo.Records() {
		require.NoError(t, wall.WriteBytes(name, data))
	}
	return wall
}

func fileOf(t *testing.T, wall folder.Folder, name string) string {
	t.Helper()
	data, err := os.ReadFile(wall.Path(name))
	require.NoError(t, err)
	return string(data)
}

// TestAMixAndAFiringGoBelowWhatIsThere types both in, wrong first.
func TestAMixAndAFiringGoBelowWhatIsThere(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	mixes, loads := fileOf(t, wall, "tiles/batches.csv"), fileOf(t, wall, "tiles/loads.csv")

	p := c.post("/records/mix", "glaze", "QM", "batch", "=QM-9", "mixed", "2026-02-30", "sg", "146")
	assert.Equal(t, 422, p.status)
	assert.Contains(t, p.main(), "there is no such day")
	assert.Equal(t, "=QM-9", p.value("batch"), "what was typed is there again")
	assert.Equal(t, mixes, fileOf(t, wall, "tiles/batches.csv"))

	p = c.post("/records/mix", "glaze", "QM", "batch", "=QM-9", "mixed", "2026-02-28", "sg", "146")
	assert.Equal(t, 200, p.status)
	rest, ok := strings.CutPrefix(fileOf(t, wall, "tiles/batches.csv"), mixes)
	require.True(t, ok, "every byte that was there is there")
	assert.Equal(t, "QM,'=QM-9,2026-02-28,1.46,,\n", rest)

	p = c.get("/records/gravity?glaze=QM&sg=1.52")
	assert.Contains(t, p.text, "<svg")
	assert.NotEqual(t, p.text, c.get("/records/gravity?glaze=QM&sg=1.46").text)

	p = c.post("/records/firing", "load", "G90", "date", "2026-04-01", "cone0", "6", "cone2", "5½")
	assert.Equal(t, 200, p.status, p.main())
	rest, ok = strings.CutPrefix(fileOf(t, wall, "tiles/loads.csv"), loads)
	require.True(t, ok)
	assert.Equal(t, "G90,,2026-04-01,,top 6; bottom 5½,,\n", rest)
	assert.Equal(t, 422, c.post("/records/firing", "load", "g90").status, "a load is fired once")
}

// TestAFormsHeadingsAreMatchedOnce drops an export with headings of its own, as
// CSV and then as a spreadsheet.
func TestAFormsHeadingsAreMatchedOnce(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	before := fileOf(t, wall, "wall.yaml")
	rows := [][]string{{"Which pot?", "Glaze on the clay", "Over that", "Your year"}, {"X1", "QM", "FG", "9b"}}
	var text bytes.Buffer
	require.NoError(t, csv.NewWriter(&text).WriteAll(rows))
	p := c.bring("/records/bring", "file", "form <b>.csv", text.Bytes())
	assert.Equal(t, 422, p.status)
	require.Equal(t, 4, p.Find("form[action='/records/match'] select").Length(), p.main())
	p = c.post("/records/match", "brought", p.value("brought"), "seen", p.value("seen"), "column0", "piece", "column1", "first", "column2", "second")
	assert.Equal(t, 200, p.status)
	assert.Contains(t, p.text, "1 new row")
	assert.True(t, strings.Contains(fileOf(t, wall, "tiles/log.csv"), "X1"))
	for _, line := range strings.Split(before, "\n") {
		assert.Contains(t, fileOf(t, wall, "wall.yaml"), line)
	}

	book := excelize.NewFile()
	rows[1][0] = "X2"
	for i, row := range rows {
		require.NoError(t, book.SetSheetRow("Sheet1", []string{"A1", "A2"}[i], &[]string{row[0], row[1], row[2]}))
	}
	var xlsx bytes.Buffer
	require.NoError(t, book.Write(&xlsx))
	p = c.bring("/records/bring", "file", "form.xlsx", xlsx.Bytes())
	require.Equal(t, 200, p.status, "known now: %.300s", p.main())
	assert.True(t, strings.Contains(fileOf(t, wall, "tiles/log.csv"), "X2"))
}

// TestUnloadingWritesTheStatusAndNothingElse taps on a load's tiles.
func TestUnloadingWritesTheStatusAndNothingElse(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	before := strings.Split(fileOf(t, wall, "tiles/plan.csv"), "\n")
	p := c.get("/records?part=unload&load=1")
	first := p.Find("select[name^=tile]").First().AttrOr("name", "")
	second := p.Find("select[name^=tile]").Eq(1).AttrOr("name", "")
	p = c.post("/records/unload", "load", "1", first, "well", second, "broken")
	assert.Equal(t, 200, p.status)
	after := strings.Split(fileOf(t, wall, "tiles/plan.csv"), "\n")
	var differs []string
	heads := strings.Split(before[0], ",")
	for i := range before {
		was, now := strings.Split(before[i], ","), strings.Split(after[i], ",")
		require.Len(t, now, len(was))
		for k := range was {
			if was[k] != now[k] {
				differs = append(differs, heads[k]+" "+was[k]+" → "+now[k])
			}
		}
	}
	assert.Equal(t, []string{"status planned → fired", "status planned → retired", "reason  → broke in the firing"}, differs)
	again := c.get("/records?part=unload&load=1")
	assert.Equal(t, 1, again.Find("option[value=broken][selected]").Length(), "what broke is still on its shelf")
	c.post("/records/unload", "load", "1", first, "not", second, "not")
	assert.Equal(t, strings.Join(before, "\n"), fileOf(t, wall, "tiles/plan.csv"), "a slip of the finger is undone")
	assert.Equal(t, 422, c.post("/records/unload", "tile9999", "well").status)
}

// TestFaultsAndDriftAreSaidAsTheCommandsSayThem holds the pages against the verbs.
func TestFaultsAndDriftAreSaidAsTheCommandsSayThem(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	report, err := run.Trace(wall)
	require.NoError(t, err)
	p := c.get("/faults")
	assert.Contains(t, p.main(), report.Summary())
	words := 0
	for _, f := range report.Faults {
		assert.Contains(t, p.main(), f.Heading())
		for _, one := range f.Found {
			for _, w := range one.Words {
				assert.Contains(t, p.main(), strings.Join(strings.Fields(w), " "))
				words++
			}
		}
	}
	require.Greater(t, words, 3)
	link := p.Find("a[href*='fault=']").First().AttrOr("href", "")
	listed := c.get(strings.TrimSuffix(link, "#pieces"))
	assert.Equal(t, report.Faults[0].Pieces, listed.Find("#pieces ~ .wide tbody tr").Length())

	d, err := run.Drift(wall)
	require.NoError(t, err)
	assert.Contains(t, c.get("/drift").main(), d.Summary())
}

// TestTheSiteIsHandedOnWhole saves it as one file, unpacks that by another
// library's rules, and copies it beside.
func TestTheSiteIsHandedOnWhole(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	assert.Equal(t, 422, c.get("/site/zip").status, "nothing is built yet")
	_, err := produce.Site(t.Context(), wall, produce.SiteWish{})
	require.NoError(t, err)

	answer, err := c.http.Get(c.base + "/site")
	require.NoError(t, err)
	_ = answer.Body.Close()
	assert.Contains(t, answer.Header.Get("Content-Security-Policy"), "frame-src http://127.0.0.1:")
	other, err := c.http.Get(c.base + "/records")
	require.NoError(t, err)
	_ = other.Body.Close()
	assert.NotContains(t, other.Header.Get("Content-Security-Policy"), "frame-src")

	packed := c.get("/site/zip").text
	z, err := zip.NewReader(strings.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	inZip := map[string]string{}
	for _, f := range z.File {
		require.True(t, filepath.IsLocal(f.Name), f.Name)
		r, err := f.Open()
		require.NoError(t, err)
		data, err := io.ReadAll(r)
		require.NoError(t, err)
		inZip[f.Name] = string(data)
	}
	to := filepath.Join(t.TempDir(), "stick")
	p := c.post("/site/copy", "place", to)
	assert.Equal(t, 200, p.status, p.main())
	require.NotEmpty(t, inZip)
	for _, name := range slices.Sorted(maps.Keys(inZip)) {
		copied, err := os.ReadFile(filepath.Join(to, name))
		require.NoError(t, err)
		assert.True(t, string(copied) == inZip[name], name)
		assert.True(t, fileOf(t, wall, "build/site/"+name) == inZip[name], name)
	}
	p = c.post("/site/copy", "place", wall.Dir())
	assert.Equal(t, 422, p.status)
	assert.Equal(t, wall.Dir(), p.value("place"))
}
