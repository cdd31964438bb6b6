package mark

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// peer skips the test where a tool is not there, and fails it where all tools
// were asked for.
func peer(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("TWODIP_ALL") == "1" {
		t.Fatalf("%s is not installed, and TWODIP_ALL asks for it", what)
	}
	t.Skipf("%s is not installed", what)
}

// python finds a Python that has OpenCV with its marker module.
func python(t *testing.T) string {
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import cv2.aruco").Run() == nil {
			return name
		}
	}
	peer(t, "python3-opencv")
	return ""
}

// aruco finds marks with OpenCV's detector (Garrido-Jurado and others 2014)
// and sub-pixel corners, from a dictionary of our own codes. It prints
// "photo id x0 y0 x1 y1 x2 y2 x3 y3" a mark and "photo ms T" a photo.
const aruco = `
import sys, time, cv2, numpy as np
cv2.setNumThreads(1)
words = sys.argv[1].split(",")
make = getattr(cv2.aruco, "Dictionary_getByteListFromBits", None) or cv2.aruco.Dictionary.getByteListFromBits
table = np.concatenate([make(np.array([int(c) for c in w], dtype=np.uint8).reshape(6, 6)) for w in words])
if hasattr(cv2.aruco, "custom_dictionary"):
    d = cv2.aruco.custom_dictionary(len(words), 6)
    d.bytesList, d.maxCorrectionBits = table, 7
    p = cv2.aruco.DetectorParameters_create()
    p.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    find = lambda g: cv2.aruco.detectMarkers(g, d, parameters=p)
else:
    p = cv2.aruco.DetectorParameters()
    p.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    find = cv2.aruco.ArucoDetector(cv2.aruco.Dictionary(table, 6, 7), p).detectMarkers
for i, name in enumerate(sys.argv[2:]):
    g = cv2.imread(name, cv2.IMREAD_GRAYSCALE)
    t = time.process_time()
    corners, ids, _ = find(g)
    print(i, "ms", 1000 * (time.process_time() - t))
    for c, k in zip(corners, [] if ids is None else ids.ravel()):
        print(i, k, *(c.reshape(8) + 0.5))
`

// The same photos through OpenCV: we find as many marks or more, and place
// them, after the camera is fitted to all four, as well or better. The ratio
// of time is reported, not asserted.
func TestMarksBesideOpenCV(t *testing.T) {
	if testing.Short() {
		t.Skip("simulated photos take some seconds")
	}
	bin := python(t)
	dir := t.TempDir()
	args := []string{"-c", aruco, dictionary()}
	var shots []shot
	var pages []target.Page
	for seed := range uint64(count(2, 60)) {
		s, page := pageShot(t, 1000+seed, seed%2 == 1, 4000, 3000)
		name := filepath.Join(dir, fmt.Sprintf("%d.jpg", seed))
		require.NoError(t, os.WriteFile(name, s.data, 0o644))
		args, shots, pages = append(args, name), append(shots, s), append(pages, page)
	}
	out, err := exec.Command(bin, args...).Output()
	require.NoError(t, err)
	theirs, millis := arucoFound(t, out, len(shots))
	var us, them tally
	them.millis = millis
	for i, s := range shots {
		found, _ := Find(s.plane)
		if m, err := OnMat(s.plane, found, pages[i], 8, 0); err == nil {
			found = m.Marks
		}
		us.millis = append(us.millis, quickest(func() { Find(s.plane) }))
		us.add(s, pages[i].Marks[:], found)
		them.add(s, pages[i].Marks[:], theirs[i])
	}
	t.Logf("ours:   %v", &us)
	t.Logf("OpenCV: %v", &them)
	t.Logf("ours takes 1/%.0f of the time", at(them.millis, 0.5)/at(us.millis, 0.5))
	require.GreaterOrEqual(t, us.marks, them.marks)
	if them.marks > 0 {
		require.Less(t, at(us.errors, 0.5), at(them.errors, 0.5))
	}
}

// quickest is the least of three runs, ms: on a busy machine the clock runs on
// while others work; the peer's is the processor's own time.
func quickest(run func()) float64 {
	least := math.Inf(1)
	for range 3 {
		start := time.Now()
		run()
		least = min(least, float64(time.Since(start).Microseconds())/1000)
	}
	return least
}

func dictionary() string {
	var words []string
	for id := range target.Count {
		words = append(words, fmt.Sprintf("%036b", target.Code(id)))
	}
	return strings.Join(words, ",")
}

func arucoFound(t *testing.T, out []byte, n int) (found [][]Found, millis []float64) {
	found = make([][]Found, n)
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Scan() {
		var i int
		var f Found
		var ms float64
		if k, _ := fmt.Sscanf(lines.Text(), "%d ms %g", &i, &ms); k == 2 {
			millis = append(millis, ms)
			continue
		}
		q := &f.Quad
		_, err := fmt.Sscan(lines.Text(), &i, &f.ID, &q[0].X, &q[0].Y, &q[1].X, &q[1].Y, &q[2].X, &q[2].Y, &q[3].X, &q[3].Y)
		require.NoError(t, err)
		found[i] = append(found[i], f)
	}
	return found, millis
}

// The label's code through zbarimg on the whole photo, beside ours: we read as
// many or more.
func TestLabelsBesideZbar(t *testing.T) {
	if testing.Short() {
		t.Skip("simulated photos take some seconds")
	}
	bin, err := exec.LookPath("zbarimg")
	if err != nil {
		peer(t, "zbar-tools")
	}
	ours, theirs, n := 0, 0, count(1, 60)
	for seed := range uint64(n) {
		s, page := pageShot(t, 2000+seed, false, 4000, 3000)
		found, _ := Find(s.plane)
		m, err := OnMat(s.plane, found, page, 8, 0)
		require.NoError(t, err)
		if got, ok := m.Label(s.plane, &m.Lying, printedLabels); ok && got.Tile == tiles.Number(2001+seed) {
			ours++
		}
		name := filepath.Join(t.TempDir(), "photo.jpg")
		require.NoError(t, os.WriteFile(name, s.data, 0o644))
		out, _ := exec.Command(bin, "--quiet", "--nodbus", "--raw", name).Output() // 4 = nothing found
		if strings.Contains(string(out), tiles.Number(2001+seed).PagePath()) {
			theirs++
		}
	}
	t.Logf("labels read on %d photos: ours %d, zbarimg on the whole photo %d", n, ours, theirs)
	require.GreaterOrEqual(t, ours, theirs)
}
