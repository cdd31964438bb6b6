package door

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/produce"
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

// TestAPieceGoesIntoTheLogOnce sends rows twice, and wrong ones; what was in the
// log stays byte for byte.
func TestAPieceGoesIntoTheLogOnce(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall})
	_, before, _ := strings.Cut(logText(t, wall), "\n")
	long := strings.Repeat("ab ", 83) + "z"
	require.Len(t, long, 250)
	for i, maker := range []string{"=HYPERLINK(\"http://x\")", "نور الهدى", long, "A,\"B\"\u202e", "<script>alert(1)</script>"} {
		sent := []string{"key", fmt.Sprintf("k-%d", i), "first", "qm", "second", "Fen Glass", "maker", maker, "piece", "a small bowl", "how", "poured", "where", "rim", "clay", "buff stoneware", "foot", "wiped"}
		for range 2 {
			status, text := p.post(t, "/log", sent...)
			assert.Equal(t, 200, status, text)
			assert.Contains(t, text, fmt.Sprintf(`<span class="number">%d</span>`, i+1))
			assert.NotContains(t, text, "<script>alert")
		}
	}
	_, after, _ := strings.Cut(logText(t, wall), "\n")
	added, ok := strings.CutPrefix(after, before)
	require.True(t, ok)
	assert.Equal(t, 5, strings.Count(added, "\n"))
	rows := rowsOf(t, wall)
	last := rows[len(rows)-5:]
	assert.Equal(t, "'=HYPERLINK(\"http://x\")", last[0]["maker"], "no spreadsheet runs it")
	assert.Equal(t, "نور الهدى", last[1]["maker"])
	assert.Equal(t, long, last[2]["maker"])
	for _, row := range last {
		assert.Equal(t, "QM", row["first"])
		assert.Equal(t, "FG", row["second"])
		assert.Equal(t, record.NotLooked, row[record.LookedColumn])
	}

	is := logText(t, wall)
	for want, sent := range map[string][]string{
		"third coat":     {"key", "w1", "first", "QM", "second", "FG; OH"},
		"A third":        {"key", "w1", "first", "QM", "second", "FG", "third", "OH"},
		"No glaze here":  {"key", "w1", "first", "XX"},
		"went on first":  {"key", "w1", "second", "FG"},
		"without its":    {"first", "QM"},
		"longer than":    {"key", "w1", "first", "QM", "maker", strings.Repeat("x", 251)},
		"are no letters": {"key", "w1", "first", "QM", "maker", "a\x00b"},
	} {
		status, text := p.post(t, "/log", sent...)
		assert.Equal(t, 422, status, want)
		assert.Contains(t, text, want)
	}
	answer, err := p.http.Post(p.base+"/log", "application/x-www-form-urlencoded", strings.NewReader("key=w1&first=QM&second=FG;OH"))
	require.NoError(t, err)
	status, _ := readAll(t, answer)
	assert.Equal(t, 422, status, "half a form is no form")
	assert.Equal(t, is, logText(t, wall))
	_, err = run.LoadRecords(wall)
	assert.NoError(t, err)
}

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

// TestOnePhoneCannotFlood sends from a phone as fast as it can.
func TestOnePhoneCannotFlood(t *testing.T) {
	wall := studio(t)
	_, p := openDoor(t, Wish{Dir: wall})
	_, _ = p.get(t, "/piece")
	refused := 0
	for i := range 80 {
		status, text := p.post(t, "/log", "key", fmt.Sprint("f", i), "first", "QM")
		if status == 429 {
			refused++
			assert.Contains(t, text, "wait a minute")
		}
	}
	assert.InDelta(t, 20, refused, 5)
	status, _ := newPhone(t, p.base+"/?key="+keyOf(p)).post(t, "/log", "key", "other", "first", "QM")
	assert.Equal(t, 200, status, "another phone is not held up")
}

func keyOf(p phone) string {
	u, _ := url.Parse(p.base)
	for _, c := range p.http.Jar.Cookies(u) {
		if strings.HasPrefix(c.Name, "twodip-door") {
			return c.Value
		}
	}
	return ""
}

// TestMain serves a door where a test asks for one that it can kill.
func TestMain(m *testing.M) {
	if dir := os.Getenv("TWODIP_TEST_DOOR"); dir != "" {
		d, err := Open(context.Background(), Wish{Dir: folder.At(dir), Listen: os.Getenv("TWODIP_TEST_AT"), Key: strings.Repeat("K", 26)})
		if err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		fmt.Println(d.Address())
		select {}
	}
	os.Exit(m.Run())
}

func serveApart(t *testing.T, wall folder.Folder, at string) (*exec.Cmd, string) {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), "TWODIP_TEST_DOOR="+wall.Dir(), "TWODIP_TEST_AT="+at)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	line := make([]byte, 200)
	n, err := out.Read(line)
	require.NoError(t, err)
	return c, strings.TrimSpace(string(line[:n]))
}

// TestEveryAcceptedRowIsThereOnce lets many phones write at once, kills the
// server without a word in the middle of it, and starts another in its place.
// With TWODIP_LONG=1 it is 200 phones of 20 rows.
func TestEveryAcceptedRowIsThereOnce(t *testing.T) {
	phones, each := 20, 6
	if os.Getenv("TWODIP_LONG") != "" {
		phones, each = 200, 20
	}
	wall := studio(t)
	had := len(rowsOf(t, wall))
	server, address := serveApart(t, wall, "127.0.0.1:0")
	at := strings.TrimPrefix(strings.Split(address, "/?")[0], "http://")
	var all sync.WaitGroup
	var mu sync.Mutex
	told, half := map[string]string{}, make(chan bool)
	begun := time.Now()
	for i := range phones {
		p := newPhone(t, address)
		all.Add(1)
		go func() {
			defer all.Done()
			for k := range each {
				key := fmt.Sprintf("phone-%d-%d", i, k)
				called := p.persist(key)
				mu.Lock()
				told[key] = called
				if len(told) == phones*each/2 {
					close(half)
				}
				mu.Unlock()
			}
		}()
	}
	<-half
	require.NoError(t, server.Process.Kill())
	_ = server.Wait()
	server, _ = serveApart(t, wall, at)
	all.Wait()
	t.Logf("%d rows of %d phones in %v", phones*each, phones, time.Since(begun).Round(time.Millisecond))
	require.NoError(t, server.Process.Kill())
	_ = server.Wait()

	rows := rowsOf(t, wall)
	assert.Len(t, rows, had+phones*each)
	byKey, byPiece := map[string]string{}, map[string]bool{}
	for _, row := range rows[had:] {
		assert.NotContains(t, byKey, row[record.KeyColumn])
		assert.False(t, byPiece[row["piece"]], row["piece"])
		byKey[row[record.KeyColumn]], byPiece[row["piece"]] = row["piece"], true
	}
	assert.Equal(t, told, byKey, "what a phone was told is what the log says")
	_, err := run.LoadRecords(wall)
	assert.NoError(t, err)
}

// persist sends a row until it is accepted, as the form's script does.
func (p phone) persist(key string) (called string) {
	for {
		r, _ := http.NewRequest(http.MethodPost, p.base+"/log", strings.NewReader(formOf([]string{"key", key, "first", "QM", "second", "FG", "foot", "wiped"}).Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Accept", "application/json")
		if answer, err := p.http.Do(r); err == nil {
			var said map[string]string
			err := json.NewDecoder(answer.Body).Decode(&said)
			_ = answer.Body.Close()
			if err == nil && answer.StatusCode == 200 {
				return said["piece"]
			}
		}
		time.Sleep(20 * time.Millisecond)
	}
}

// BenchmarkAPiece is one row after the other below a log of 4,000.
func BenchmarkAPiece(b *testing.B) {
	dir := b.TempDir()
	wall := folder.At(dir)
	files, err := demo.Files()
	require.NoError(b, err)
	for name, data := range files {
		require.NoError(b, wall.WriteBytes(name, data))
	}
	text := "piece,date,maker,first,second\n" + strings.Repeat("P1,2026-01-02,AB,QM,FG\n", 4000)
	require.NoError(b, wall.WriteBytes(record.LogFile, []byte(text)))
	in := run.NewIntake(wall)
	for i := 0; b.Loop(); i++ {
		_, err := in.TakePiece(record.Arrival{Key: fmt.Sprint("b", i)})
		require.NoError(b, err)
	}
}
