package firefox

import (
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestItIsDriven types, clicks and chooses a file on a page, and asks what came
// of it.
func TestItIsDriven(t *testing.T) {
	if _, err := exec.LookPath(Program); err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatal(Program + " is missing")
		}
		t.Skip(Program + " is missing")
	}
	page := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte(`<!DOCTYPE html><form><input id="a" name="a" style="position:absolute;left:10px;top:10px;width:100px;height:30px"><input type="file"><p>` + r.FormValue("a") + `</p></form>`))
	}))
	defer page.Close()
	tab, err := Open(t.Context(), t.TempDir(), 390, 844)
	require.NoError(t, err)
	defer tab.Close()
	require.NoError(t, tab.Visit(page.URL))
	ask := func(js string) string {
		got, err := tab.Ask(js)
		require.NoError(t, err, js)
		return got
	}
	assert.Equal(t, "390 844", ask(`innerWidth + " " + innerHeight`))
	assert.Contains(t, ask(`navigator.userAgent`), "Firefox")
	file := filepath.Join(t.TempDir(), "one.txt")
	require.NoError(t, os.WriteFile(file, []byte("1"), 0o644))
	require.NoError(t, tab.Files("input[type=file]", file))
	assert.Equal(t, "one.txt", ask(`document.querySelector("input[type=file]").files[0].name`))
	require.NoError(t, tab.Click(50, 25))
	require.NoError(t, tab.Type("Zq\n"))
	assert.Equal(t, "Zq", ask(`new Promise((done) => { const look = () => location.search && document.querySelector("p") ? done(document.querySelector("p").innerText) : setTimeout(look, 20); look(); })`))
	_, err = tab.Ask(`no.such.thing`)
	assert.Error(t, err)
}
