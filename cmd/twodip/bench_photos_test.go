//go:build linux

package main

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/draw"

	"github.com/twodip/twodip/content/demo"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// photosOfTheWall is how many photographs are dropped at once: all of a wall of
// twelve glazes, or as many as TWODIP_PHOTOS says.
func photosOfTheWall(t *testing.T) int {
	t.Helper()
	if n, err := strconv.Atoi(os.Getenv("TWODIP_PHOTOS")); err == nil {
		return n
	}
	return 144
}

// TestAWallsPhotographsDroppedAtOnce drops photographs of 12 megapixels on the
// bench in Chromium and measures the same ones with the command, with
// TWODIP_LONG=1: memory beside the command's, and how long the page was busy at
// once. Times are only said.
func TestAWallsPhotographsDroppedAtOnce(t *testing.T) {
	if os.Getenv("TWODIP_LONG") == "" {
		t.Skip("TWODIP_LONG=1 drops all photographs of a wall")
	}
	dir := smallWall(t, 12, nil)
	finish(t, dir, "plan")
	photos := largePhotos(t, dir, photosOfTheWall(t))

	other := copyWall(t, dir)
	for _, file := range photos {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		put(t, other, "tiles/photos/"+filepath.Base(file), string(data))
	}
	begun := time.Now()
	_, status, commands := peak(t, other, "measure")
	require.Zero(t, status)
	took := time.Since(begun)

	p := atBench(t, dir, inChromium, "--wall", dir)
	p.clicksOn("Photographs")
	p.sees("There are none yet.")
	longest, dropped := 0, false
	watch := func() (shown, all bool) {
		said, _ := p.in.Ask(fmt.Sprintf(`(() => {
			window.longest ??= (new PerformanceObserver((l) => { for (const e of l.getEntries()) window.longest = Math.max(window.longest, e.duration); }).observe({ type: "longtask", buffered: %t }), 0);
			const idle = document.getElementById("work-stop").hidden, main = idle ? document.querySelector("main").textContent : "";
			return Math.round(window.longest) + " " + !!document.querySelector("#photos .number") + " " + (idle && main.includes("%d here") && !main.includes("not read yet"));
		})()`, dropped, len(photos)))
		busy := 0
		_, _ = fmt.Sscan(said, &busy, &shown, &all)
		longest = max(longest, busy)
		return shown, all
	}
	watch() // the page as it was opened does not count, the one that follows does
	dropped = true
	p.chooses("#files", photos...)
	begun = time.Now()
	p.clicksOn("Bring and read them")
	first := time.Duration(0)
	for {
		shown, all := watch()
		if shown && first == 0 {
			first = time.Since(begun)
		}
		if all {
			break
		}
		require.Less(t, time.Since(begun), 40*time.Minute)
		if first > 0 {
			time.Sleep(400 * time.Millisecond) // to ask costs the page time
		}
		time.Sleep(100 * time.Millisecond)
	}
	benchs := time.Since(begun)
	w, err := run.Load(folder.At(dir))
	require.NoError(t, err)
	assert.GreaterOrEqual(t, len(w.Readings), len(photos))
	memory := peakOf(t, p.pid)
	t.Logf("%d photographs: bench %v (first shown after %v), command %v, ratio %.2f; peak %d and %d MB; longest task of the page %d ms",
		len(photos), benchs.Round(time.Second), first.Round(100*time.Millisecond), took.Round(time.Second), benchs.Seconds()/took.Seconds(), memory, commands, longest)
	assert.LessOrEqual(t, memory, commands+60, "MB")
}

// peakOf is the most memory that a process has had, in megabytes (proc(5), VmHWM).
func peakOf(t *testing.T, pid int) int {
	t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	require.NoError(t, err)
	_, after, _ := strings.Cut(string(text), "VmHWM:")
	kb, err := strconv.Atoi(strings.Fields(after)[0])
	require.NoError(t, err)
	return kb >> 10
}

// largePhotos are so many photographs of 4000 × 3000 pixels, made of six made
// pictures; a remark in each (ITU-T T.81, B.2.4.5) makes no two the same file.
func largePhotos(t *testing.T, wall string, count int) []string {
	t.Helper()
	w, err := run.Load(folder.At(wall))
	require.NoError(t, err)
	studio := demo.NewStudio(w.Settings.Tile, demo.Seed)
	var made [][]byte
	for i := range min(6, count) {
		small, _ := studio.Picture(w.Tiles[i])
		large := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
		draw.ApproxBiLinear.Scale(large, large.Bounds(), small, small.Bounds(), draw.Src, nil)
		var b bytes.Buffer
		require.NoError(t, jpeg.Encode(&b, large, &jpeg.Options{Quality: 90}))
		made = append(made, b.Bytes())
	}
	into := t.TempDir()
	var out []string
	for i := range count {
		picture := made[i%len(made)]
		data := append([]byte{0xff, 0xd8, 0xff, 0xfe, 0, 6}, fmt.Sprintf("%04d", i)...)
		out = append(out, filepath.Join(into, fmt.Sprintf("%d.jpg", i+1)))
		require.NoError(t, os.WriteFile(out[i], append(data, picture[2:]...), 0o644))
	}
	return out
}
