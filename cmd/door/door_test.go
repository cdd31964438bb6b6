package door

import (
	"encoding/csv"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// studio is the invented studio, planned, with its year of records.
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

// phone is a browser on the studio's network.
type phone struct {
	base string
	http *http.Client
}

func newPhone(t testing.TB, address string) phone {
	t.Helper()
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	base, _, _ := strings.Cut(address, "/?")
	p := phone{base, &http.Client{Jar: jar, Timeout: time.Minute}}
	answer, err := p.http.Get(address)
	require.NoError(t, err)
	_ = answer.Body.Close()
	return p
}

func (p phone) get(t testing.TB, path string) (int, string) {
	t.Helper()
	answer, err := p.http.Get(p.base + path)
	require.NoError(t, err)
	return readAll(t, answer)
}

func readAll(t testing.TB, answer *http.Response) (int, string) {
	t.Helper()
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return answer.StatusCode, string(text)
}

// post sends an ordinary form: names and values in turn.
func (p phone) post(t testing.TB, path string, namesAndValues ...string) (int, string) {
	t.Helper()
	answer, err := p.http.PostForm(p.base+path, formOf(namesAndValues))
	require.NoError(t, err)
	return readAll(t, answer)
}

func formOf(namesAndValues []string) url.Values {
	form := url.Values{}
	for i := 0; i+1 < len(namesAndValues); i += 2 {
		form.Add(namesAndValues[i], namesAndValues[i+1])
	}
	return form
}

func openDoor(t *testing.T, wish Wish) (*Door, phone) {
	t.Helper()
	wish.Listen = "127.0.0.1:0"
	d, err := Open(t.Context(), wish)
	require.NoError(t, err)
	t.Cleanup(d.Close)
	return d, newPhone(t, d.Address())
}

func logText(t testing.TB, wall folder.Folder) string {
	t.Helper()
	text, err := os.ReadFile(wall.Path(record.LogFile))
	require.NoError(t, err)
	return string(text)
}

// rowsOf reads the log by encoding/csv alone, which follows RFC 4180.
func rowsOf(t testing.TB, wall folder.Folder) []map[string]string {
	t.Helper()
	in := csv.NewReader(strings.NewReader(logText(t, wall)))
	in.FieldsPerRecord = -1
	all, err := in.ReadAll()
	require.NoError(t, err)
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, c := range cells {
			row[all[0][i]] = c
		}
		out = append(out, row)
	}
	return out
}
