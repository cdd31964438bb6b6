package main

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"math/rand/v2"
	"mime/multipart"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// A bench killed at any moment while photographs are brought and read, a plan
// written and a part of the wall chosen leaves every photograph that is there whole and
// nothing of a person's lost; check finds nothing wrong, and the next run reads
// what is left.
func TestABenchKilledAtAnyMomentLosesNothing(t *testing.T) {
	hits := 4
	if os.Getenv("TWODIP_LONG") != "" {
		hits = 100
	}
	const seed = 16
	t.Logf("%d moments by chance from seed %d", hits, seed)
	r := rand.New(rand.NewPCG(seed, 0))
	wall := filepath.Join(t.TempDir(), "wall")
	status, out, errs := twodip("start", wall)
	require.Zero(t, status, out+errs)
	photo := tilePhoto(t)
	mayBe, edited := map[string][]string{}, 0 // each file as it was, or as it was to be
	for _, file := range []string{"wall.yaml", "content/glazes.csv"} {
		was, err := os.ReadFile(filepath.Join(wall, file))
		require.NoError(t, err)
		mayBe[file] = []string{string(was)}
	}
	smaller, err := content.WithPart([]byte(mayBe["wall.yaml"][0]), tiles.Portion{Glazes: 2})
	require.NoError(t, err)
	mayBe["wall.yaml"] = append(mayBe["wall.yaml"], string(smaller))
	for range hits {
		dir := copyWall(t, wall)
		killBench(t, dir, photo, time.Duration(r.Float64()*float64(900*time.Millisecond)))
		names, err := os.ReadDir(filepath.Join(dir, "tiles", "photos"))
		require.True(t, err == nil || os.IsNotExist(err), err)
		for _, n := range names {
			if strings.HasPrefix(n.Name(), ".") {
				continue // seen by nobody, and swept
			}
			data, err := os.ReadFile(filepath.Join(dir, "tiles", "photos", n.Name()))
			require.NoError(t, err)
			require.True(t, bytes.Equal(photo, data), "%s is half a photograph", n.Name())
		}
		for file, may := range mayBe {
			is, err := os.ReadFile(filepath.Join(dir, file))
			require.NoError(t, err)
			require.Contains(t, may, string(is), file)
			if file == "wall.yaml" && string(is) != may[0] {
				edited++
			}
		}
		for _, args := range [][]string{{"check"}, {"plan"}} {
			status, out, errs := twodip(append(args, "--wall", dir)...)
			require.Zero(t, status, "twodip %s: %s%s", args[0], out, errs)
		}
		require.NoError(t, os.RemoveAll(dir))
	}
	t.Logf("wall.yaml was edited before the end in %d of %d", edited, hits)
}

// killBench opens a bench on the wall, has it do much at once, and kills it.
func killBench(t *testing.T, dir string, photo []byte, moment time.Duration) {
	t.Helper()
	c := command(dir, "bench", "--listen", "127.0.0.1:0", "--no-open")
	c.Env = append(c.Environ(), "XDG_CONFIG_HOME="+t.TempDir())
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	line := make([]byte, 300)
	n, err := out.Read(line)
	require.NoError(t, err)
	at := strings.TrimSpace(string(line[:n]))
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	person := http.Client{Jar: jar}
	answer, err := person.Get(at)
	require.NoError(t, err)
	_ = answer.Body.Close()
	u, err := url.Parse(at)
	require.NoError(t, err)
	base := u.Scheme + "://" + u.Host
	_, seen, err := run.Look(folder.At(dir), "wall.yaml")
	require.NoError(t, err)
	// It is killed while these are under way: no answer need come.
	post := func(path, kind string, body io.Reader) {
		if answer, err := person.Post(base+path, kind, body); err == nil {
			_, _ = io.Copy(io.Discard, answer.Body)
			_ = answer.Body.Close()
		}
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		post("/plan/apply", "application/x-www-form-urlencoded", strings.NewReader("yes=1"))
		post("/plan/part", "application/x-www-form-urlencoded", strings.NewReader("glazes=2&most-glazes=9&partners=2&most-partners=2&seen="+seen))
		var body bytes.Buffer
		form := multipart.NewWriter(&body)
		for _, name := range []string{"1.jpg", "2.jpg", "3.jpg", "4.jpg", "5.jpg", "6.jpg", "7.jpg", "8.jpg"} {
			part, _ := form.CreateFormFile("photo", name) // a buffer takes everything
			_, _ = part.Write(photo)
		}
		_ = form.Close()
		post("/photographs/bring", form.FormDataContentType(), &body)
	}()
	time.Sleep(moment)
	require.NoError(t, c.Process.Kill())
	_ = c.Wait() // it was killed
	<-done
}

// tilePhoto is a photograph of a tile on a grey ground.
func tilePhoto(t *testing.T) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 800, 600))
	for y := range 600 {
		for x := range 800 {
			m.SetGray(x, y, color.Gray{Y: 150})
			if x > 280 && x < 520 && y > 120 && y < 480 {
				m.SetGray(x, y, color.Gray{Y: uint8(60 + (x*y)%9)})
			}
		}
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}
