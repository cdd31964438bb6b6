package door

import (
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/tiles/run"
)

// TestTheDoorLeadsNowhereElse asks it for everything a wall and a bench have.
func TestTheDoorLeadsNowhereElse(t *testing.T) {
	wall := studio(t)
	_, err := produce.Site(t.Context(), wall, produce.SiteWish{})
	require.NoError(t, err)
	require.NoError(t, wall.WriteBytes("tiles/pieces/1.jpg", []byte("Zqxphoto")))
	require.NoError(t, os.Symlink(wall.Path("wall.yaml"), wall.Path("build/site/link.html")))
	d, p := openDoor(t, Wish{Dir: wall})
	status, text := p.get(t, "/")
	assert.Equal(t, 200, status)
	assert.Contains(t, text, "Withy Marl")
	_, text = p.get(t, "/tile/3.html")
	assert.Contains(t, text, "I glazed a piece like this")
	_, text = p.get(t, "/piece?tile=3")
	assert.Contains(t, text, "Oat Husk")

	for _, path := range []string{"/wall.yaml", "/tiles/log.csv", "/tiles/pieces/1.jpg", "/build/door.txt", "/records", "/news", "/photographs", "/site/zip", "/door/open", "/door/../wall.yaml",
		"/%2e%2e/wall.yaml", "/..%2f..%2fwall.yaml", "/tile/..%2f..%2f..%2ftiles%2flog.csv", "/tile/%5c..%5c..%5cwall.yaml", "//etc/passwd", "/link.html", "/door/piece.html", "/door/%2e%2e%2fbench%2fbench.js", "/photo", "/.twodip.lock"} {
		r, err := http.NewRequest(http.MethodGet, p.base, nil)
		require.NoError(t, err)
		r.URL.Opaque = strings.TrimPrefix(p.base, "http:") + path
		answer, err := p.http.Do(r)
		require.NoError(t, err, path)
		status, text := readAll(t, answer)
		assert.GreaterOrEqual(t, status, 400, path)
		assert.NotContains(t, text, "Zqxphoto", path)
		assert.NotContains(t, text, "shelves:", path)
	}

	stranger := &http.Client{}
	for name, ask := range map[string]func(*http.Request){
		"no key":       func(*http.Request) {},
		"another host": func(r *http.Request) { r.Host = "evil.example" },
		"another site": func(r *http.Request) {
			r.Header.Set("Origin", "http://evil.example")
			r.Header.Set("Sec-Fetch-Site", "cross-site")
		},
		"another verb":  func(r *http.Request) { r.Method = http.MethodDelete },
		"a wrong key":   func(r *http.Request) { r.URL.RawQuery = "key=AAAA" },
		"a made cookie": func(r *http.Request) { r.Header.Set("Cookie", "twodip-door=AAAA; twodip-word=x") },
	} {
		r, err := http.NewRequest(http.MethodPost, p.base+"/log", strings.NewReader("key=evil&first=QM"))
		require.NoError(t, err)
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		ask(r)
		client := stranger
		if name == "another site" || name == "another host" {
			client = p.http // with the cookie
		}
		answer, err := client.Do(r)
		require.NoError(t, err)
		status, _ := readAll(t, answer)
		assert.GreaterOrEqual(t, status, 400, name)
	}
	assert.False(t, strings.Contains(logText(t, wall), "evil"))
	d.Close()
	assert.False(t, d.IsOpen())
	_, err = p.http.Get(p.base)
	assert.Error(t, err, "closed is closed")
}

// TestNoMakerComesOutOfTheDoor looks for every maker of the log on every page.
func TestNoMakerComesOutOfTheDoor(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall})
	status, text := p.post(t, "/log", "key", "m1", "first", "QM", "maker", "Zqxmaker", "piece", "Zqxnote")
	require.Equal(t, 200, status)
	assert.NotContains(t, text, "Zqxmaker")
	require.Equal(t, 303, redirected(t, p, "/kiln", "piece", "1", "load", "G99", "shelf", "top"))
	for _, path := range []string{"/", "/piece", "/mine?piece=1", "/mine?piece=P001", "/kiln", "/kiln?load=G99", "/kiln?load=G99&fault=1"} {
		status, text := p.get(t, path)
		assert.Equal(t, 200, status, path)
		assert.NotContains(t, text, "Zqx", path)
		assert.LessOrEqual(t, len(text), 30_000, path)
	}
	_, text = p.get(t, "/mine?piece=1")
	assert.Contains(t, text, "in load G99")
	require.Equal(t, 303, redirected(t, p, "/kiln", "piece", "1", "came", "crawling", "zone", "overlap"))
	status, text = p.post(t, "/kiln", "piece", "1", "came", "good")
	assert.Equal(t, 422, status, "what is written stays")
	assert.Contains(t, text, "already")
	rows := rowsOf(t, wall)
	assert.Equal(t, "crawling", rows[len(rows)-1]["faults"])

	did, err := run.Forget(wall, "zqxmaker")
	require.NoError(t, err)
	assert.Equal(t, []string{"1"}, did.Pieces)
	require.NoError(t, wall.Walk(".", nil, func(name string) error {
		data, err := os.ReadFile(wall.Path(name))
		assert.NotContains(t, string(data), "Zqxmaker", name)
		return err
	}))
}

func redirected(t *testing.T, p phone, path string, namesAndValues ...string) int {
	t.Helper()
	c := *p.http
	c.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	answer, err := c.PostForm(p.base+path, formOf(namesAndValues))
	require.NoError(t, err)
	status, _ := readAll(t, answer)
	return status
}

// TestTheWordIsAskedFor writes without it, with a wrong one and with it.
func TestTheWordIsAskedFor(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall, Word: "slip"})
	status, _ := p.post(t, "/log", "key", "k", "first", "QM")
	assert.Equal(t, 403, status)
	status, _ = p.post(t, "/word", "word", "slop")
	assert.Equal(t, 403, status)
	status, _ = p.post(t, "/word", "word", " Slip ")
	assert.Equal(t, 200, status)
	status, _ = p.post(t, "/log", "key", "k", "first", "QM")
	assert.Equal(t, 200, status)
}
