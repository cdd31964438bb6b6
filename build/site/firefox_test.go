package site

import (
	"context"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFirefoxShowsTheSame opens pages from disk in Firefox and compares what it
// shows with Chromium, coarsely: a script that was refused or a search that did
// not run leaves a page that differs by far more than fonts do.
func TestFirefoxShowsTheSame(t *testing.T) {
	firefox, err := exec.LookPath("firefox-esr")
	needs(t, err != nil, "firefox-esr")
	dir, _ := standingSite(t)
	for _, name := range []string{"index.html#words=rust&as=wall", "room.html#tile=69&show=1", "order.html"} {
		file := filepath.Join(t.TempDir(), "shot.png")
		ctx, stop := context.WithTimeout(t.Context(), 90*time.Second)
		out, err := exec.CommandContext(ctx, firefox, "--headless", "--no-remote", "--profile", t.TempDir(),
			"--window-size=1440,900", "--screenshot", file, fileURL(dir, name)).CombinedOutput()
		stop()
		if _, missing := os.Stat(file); missing != nil {
			t.Fatalf("%s: Firefox made no screenshot: %v\n%s", name, err, cut(string(out), 1000))
		}
		f, err := os.Open(file)
		require.NoError(t, err)
		img, err := png.Decode(f)
		f.Close()
		require.NoError(t, err)

		b := openTab(t, 1440, 900)
		b.visit(fileURL(dir, name))
		b.until(`document.readyState === 'complete' && [...document.images].every(i => i.complete || i.getBoundingClientRect().top > innerHeight)`)
		time.Sleep(time.Second)
		mean, _ := apart(b.reduced(), smaller(img))
		t.Logf("%s: mean difference %.1f of 255", name, mean)
		assert.LessOrEqual(t, mean, firefoxMean, name)
	}
}

// firefoxMean is what fonts and form controls may differ by; a wall that is not
// searched differs by 20 and more.
const firefoxMean = 5.0
