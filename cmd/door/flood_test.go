package door

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

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

// TestEveryAcceptedRowIsThereOnce lets many phones write at once. After a quarter
// of the rows a command takes the wall and keeps it; after half of them the server
// is killed without a word, and another started in its place; after three
// quarters the command ends. With TWODIP_LONG=1 it is 200 phones of 20 rows.
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
	told, reached := map[string]string{}, map[int]chan bool{}
	for _, quarter := range []int{1, 2, 3} {
		reached[quarter*phones*each/4] = make(chan bool)
	}
	begun, longest := time.Now(), time.Duration(0)
	for i := range phones {
		p := newPhone(t, address)
		all.Add(1)
		go func() {
			defer all.Done()
			for k := range each {
				key := fmt.Sprintf("phone-%d-%d", i, k)
				called, took := p.persist(t, key)
				mu.Lock()
				told[key], longest = called, max(longest, took)
				if now, ok := reached[len(told)]; ok {
					close(now)
				}
				mu.Unlock()
			}
		}()
	}
	<-reached[phones*each/4]
	var letGo func()
	require.Eventually(t, func() bool { var err error; letGo, err = wall.Lock(); return err == nil }, 10*time.Second, time.Millisecond)
	held := logText(t, wall)
	<-reached[phones*each/2]
	require.NoError(t, server.Process.Kill())
	_ = server.Wait()
	server, _ = serveApart(t, wall, at)
	<-reached[3*phones*each/4]
	assert.Equal(t, held, logText(t, wall), "the log is the command’s")
	letGo()
	all.Wait()
	t.Logf("%d rows of %d phones in %v, the longest answer in %v", phones*each, phones, time.Since(begun).Round(time.Millisecond), longest.Round(time.Millisecond))
	require.Eventually(t, func() bool { return !record.Waits(wall) }, 10*time.Second, 10*time.Millisecond, "what waited is taken up")
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

// persist sends a row until it is accepted, as the form's script does; took is
// how long the answer took that came. No answer sends it away.
func (p phone) persist(t *testing.T, key string) (called string, took time.Duration) {
	for {
		r, _ := http.NewRequest(http.MethodPost, p.base+"/log", strings.NewReader(formOf([]string{"key", key, "first", "QM", "second", "FG", "foot", "wiped"}).Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Accept", "application/json")
		begun := time.Now()
		if answer, err := p.http.Do(r); err == nil {
			var said map[string]string
			err := json.NewDecoder(answer.Body).Decode(&said)
			_ = answer.Body.Close()
			if err == nil && answer.StatusCode == 200 {
				return said["piece"], time.Since(begun)
			}
			assert.Less(t, answer.StatusCode, 500, key)
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
	in := run.NewIntake(b.Context(), wall)
	for i := 0; b.Loop(); i++ {
		_, err := in.TakePiece(record.Arrival{Key: fmt.Sprint("b", i)})
		require.NoError(b, err)
	}
}
