package bench

import (
	"fmt"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/record"
)

// phoneAt is a phone that has opened the door's address, as the bench shows it.
func phoneAt(t *testing.T, address string) (*http.Client, string) {
	t.Helper()
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	phone := &http.Client{Jar: jar}
	answer, err := phone.Get(address)
	require.NoError(t, err)
	_ = answer.Body.Close()
	base, _, _ := strings.Cut(address, "/?")
	return phone, base
}

// TestTheTeacherOpensTheDoorAndLooks opens it, lets two phones in, looks at what
// came, and closes it; the bench's key and the door's open nothing of each other.
func TestTheTeacherOpensTheDoorAndLooks(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	assert.Contains(t, c.get("/door").main(), "Closed.")
	assert.Equal(t, 422, c.post("/door/open", "at", "127.0.0.1:0", "until", "25:99").status)
	assert.Equal(t, 422, c.post("/door/open", "at", "no such place", "word", "slip").status)
	p := c.post("/door/open", "at", "127.0.0.1:0")
	require.Equal(t, 200, p.status, p.main())
	address := p.Find("main code").First().Text()
	assert.Equal(t, 422, c.post("/door/open", "at", "127.0.0.1:0").status, "it is open already")

	phone, base := phoneAt(t, address)
	for i, row := range []url.Values{
		{"key": {"one"}, "first": {"QM"}, "foot": {"wiped"}, "maker": {"Zqx"}},
		{"key": {"two"}, "first": {"QM"}, "second": {"FG"}, "maker": {"Zqx"}},
	} {
		answer, err := phone.PostForm(base+"/log", row)
		require.NoError(t, err)
		_ = answer.Body.Close()
		require.Equal(t, 200, answer.StatusCode, i)
	}
	p = c.get("/door")
	assert.Equal(t, "2", p.Find("tbody th").First().Text(), "the odd one first")
	assert.Contains(t, p.main(), "nobody said that the foot is wiped")

	// What comes after the page was shown waits for the next look.
	keys := p.value("keys")
	answer, err := phone.PostForm(base+"/log", url.Values{"key": {"three"}, "first": {"QM"}})
	require.NoError(t, err)
	_ = answer.Body.Close()
	assert.Contains(t, c.post("/door/accept", "keys", keys).text, "2 rows marked")
	assert.Equal(t, 1, c.get("/door").Find("tbody tr").Length())

	for _, path := range []string{"/records", "/glazes", "/work/stop"} {
		answer, err := phone.Get(base + path)
		require.NoError(t, err)
		_ = answer.Body.Close()
		assert.GreaterOrEqual(t, answer.StatusCode, 400, path)
	}
	answer, err = phone.Get(c.base + "/records")
	require.NoError(t, err)
	_ = answer.Body.Close()
	assert.Equal(t, 403, answer.StatusCode, "the door's cookie opens no bench")

	assert.Contains(t, c.post("/door/forget", "maker", "zqx").text, "2 pieces in tiles/log.csv")
	assert.False(t, strings.Contains(fileOf(t, wall, record.LogFile), "Zqx"))
	c.post("/door/close")
	_, err = phone.Get(base)
	assert.Error(t, err)

	p = c.post("/door/open", "at", strings.TrimPrefix(base, "http://"))
	require.Equal(t, 200, p.status, p.main())
	assert.Equal(t, address, p.Find("main code").First().Text(), "a sheet that hangs stays right")
}

// TestTheTeacherTakesBackAWrongTap empties what a phone said at the kiln, also
// when the door is closed.
func TestTheTeacherTakesBackAWrongTap(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	p := c.post("/door/open", "at", "127.0.0.1:0")
	phone, base := phoneAt(t, p.Find("main code").First().Text())
	before := ""
	for i, row := range []url.Values{{"key": {"one"}, "first": {"QM"}}, {"piece": {"1"}, "load": {"G99"}, "shelf": {"top"}}, {"piece": {"1"}, "came": {"crawling"}, "zone": {"whole"}}} {
		answer, err := phone.PostForm(base+[]string{"/log", "/kiln", "/kiln"}[i], row)
		require.NoError(t, err)
		_ = answer.Body.Close()
		require.Equal(t, 200, answer.StatusCode, i)
		if i == 0 {
			before = fileOf(t, wall, record.LogFile)
		}
	}
	c.post("/door/close")
	assert.Contains(t, c.post("/door/back", "piece", "1", "what", "load").main(), "take back first how it came out")
	assert.Contains(t, c.post("/door/back", "piece", "1", "what", "result").text, "how it came out can be said again")
	assert.Contains(t, c.post("/door/back", "piece", "1", "what", "load").text, "its load and shelf can be said again")
	assert.Equal(t, before, fileOf(t, wall, record.LogFile))
	assert.Contains(t, c.post("/door/back", "piece", "<b>9", "what", "load").main(), "there is no piece <b>9")
}

// TestHostileRowsAreOnlyTextOnTheBench sends names that would run or deceive
// elsewhere, and looks at the teacher's page.
func TestHostileRowsAreOnlyTextOnTheBench(t *testing.T) {
	wall := studio(t)
	c := open(t, wall.Dir())
	p := c.post("/door/open", "at", "127.0.0.1:0")
	phone, base := phoneAt(t, p.Find("main code").First().Text())
	hostile := []string{"=cmd|'/c calc'!A0", "<script>alert(1)</script>", strings.Repeat("x", 250), "a\u202egpj.exe", "\"><img src=x onerror=alert(1)>", "{{.}}"}
	for i, name := range hostile {
		answer, err := phone.PostForm(base+"/log", url.Values{"key": {fmt.Sprint("h", i)}, "first": {"QM"}, "foot": {name}, "maker": {name}, "piece": {name}, "clay": {name}, "how": {name}, "where": {name}})
		require.NoError(t, err)
		_ = answer.Body.Close()
		require.Equal(t, 200, answer.StatusCode, name)
	}
	answer, err := phone.PostForm(base+"/log", url.Values{"key": {"nul"}, "first": {"QM"}, "maker": {"a\x00b"}})
	require.NoError(t, err)
	_ = answer.Body.Close()
	assert.Equal(t, 422, answer.StatusCode, "a NUL is no letter")
	p = c.get("/door")
	assert.Zero(t, p.Find("main script, main img, tbody b").Length())
	rows := p.Find("tbody tr")
	require.Equal(t, len(hostile), rows.Length())
	for _, name := range hostile {
		assert.Contains(t, rows.Text(), name)
		seen := 0
		p.Find("tbody bdi").Each(func(_ int, one *goquery.Selection) {
			if strings.Contains(one.Text(), name) {
				seen++
			}
		})
		assert.GreaterOrEqual(t, seen, 2, "%q stands in a box of its own direction", name)
	}
	assert.Equal(t, rows.Find("td").Length()-rows.Find("td:has(bdi)").Length(), 2*len(hostile), "all that was typed has its own direction: only the day and what is odd have not")
}

// TestTheDoorOpensWithTheBench prints its address second, and nothing else.
func TestTheDoorOpensWithTheBench(t *testing.T) {
	wall := studio(t)
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	out, in, err := os.Pipe()
	require.NoError(t, err)
	go func() {
		_ = Serve(t.Context(), Wish{Wall: wall.Dir(), Listen: "127.0.0.1:0", Door: "127.0.0.1:0", Out: in})
	}()
	var lines []string
	text := ""
	for deadline := time.Now().Add(time.Minute); len(lines) < 3 && time.Now().Before(deadline); lines = strings.Split(text, "\n") {
		buffer := make([]byte, 500)
		n, err := out.Read(buffer)
		require.NoError(t, err)
		text += string(buffer[:n])
	}
	require.Len(t, lines, 3, text)
	phone, base := phoneAt(t, lines[1])
	answer, err := phone.PostForm(base+"/log", url.Values{"key": {"k"}, "first": {"QM"}})
	require.NoError(t, err)
	_ = answer.Body.Close()
	assert.Equal(t, 200, answer.StatusCode)
	assert.True(t, strings.Contains(fileOf(t, wall, record.LogFile), record.NotLooked+",k"))
}
