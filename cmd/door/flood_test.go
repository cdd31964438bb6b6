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
