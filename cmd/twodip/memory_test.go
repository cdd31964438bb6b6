//go:build linux

package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func init() { programs["twodip-peak"] = peakMain }

// peakMain runs twodip and prints its peak of memory in megabytes. It stands
// between the tests and twodip because the system counts what a process had
// when it started another one as the other's.
func peakMain() {
	runtime.LockOSThread() // it is this thread's end that ends the program
	c := exec.Command("twodip", os.Args[1:]...)
	c.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	c.Stdout, c.Stderr = os.Stderr, os.Stderr
	err := c.Run()
	fmt.Print(c.ProcessState.SysUsage().(*syscall.Rusage).Maxrss >> 10)
	if err != nil {
		os.Exit(c.ProcessState.ExitCode())
	}
}

// peak runs a command in the wall: what it said, its exit status, and its peak
// of memory in megabytes.
func peak(t *testing.T, dir string, args ...string) (said string, status, megabytes int) {
	t.Helper()
	c := exec.Command("twodip-peak", args...)
	c.Dir = dir
	var out, errs bytes.Buffer
	c.Stdout, c.Stderr = &out, &errs
	_ = c.Run()
	megabytes, err := strconv.Atoi(out.String())
	require.NoError(t, err, "%s", errs.String())
	return errs.String(), c.ProcessState.ExitCode(), megabytes
}

// A picture of any claim is refused in a sentence, before memory is taken for
// it; the other photos are measured. Measured: 38 MB for a small photo alone,
// 35 to 39 MB with the first four beside it (64-bit Linux, two cores).
func TestMemoryOfPictures(t *testing.T) {
	dir := smallWall(t, 3, nil)
	finish(t, dir, "plan")
	photograph(t, dir, 1, "1.jpg")
	_, status, alone := peak(t, dir, "measure")
	require.Zero(t, status)
	t.Logf("a small photo alone: %d MB", alone)
	for _, b := range []struct {
		name, says string
		bound      int
		data       []byte
	}{
		{"2 rgb.png", "it is too large: 10000 by 10000 pixels", 100, pngOf(10_000, 10_000, 2, 8, 0)},
		{"2 deep.png", "it is too large: 10000 by 10000 pixels", 100, pngOf(10_000, 10_000, 6, 16, 0)},
		{"2.heic", "it is too large: 30000 by 30000 pixels", 100, hugeHEIC(30_000, 30_000)},
		{"2 profile.jpg", "", 150, withSegments(jpegOf(t, 600, 400), 0xe2, "ICC_PROFILE\x00", true)},
		{"2 exif.jpg", "", 150, withSegments(jpegOf(t, 600, 400), 0xe1, "Exif\x00\x00II*\x00\x08\x00\x00\x00", false)},
		{"2.jpg", "it is too large: 65500 by 65500 pixels", 100, jpegClaiming(t, 65_500, 65_500)},
	} {
		t.Run(b.name, func(t *testing.T) {
			wall := copyWall(t, dir)
			put(t, wall, "tiles/photos/"+b.name, string(b.data))
			require.NoError(t, os.Remove(filepath.Join(wall, "tiles/measured.csv")))
			said, status, mb := peak(t, wall, "measure")
			t.Logf("%d bytes of %s: %d MB", len(b.data), b.name, mb)
			if b.says != "" {
				assert.Equal(t, 1, status)
				assert.Contains(t, said, "tiles/photos/"+b.name+": "+b.says)
			} else {
				assert.Contains(t, said, "2 photos measured", "what is beside the picture is left aside")
			}
			assert.Less(t, mb, b.bound)
			rows, err := os.ReadFile(filepath.Join(wall, "tiles/measured.csv"))
			require.NoError(t, err)
			assert.Contains(t, string(rows), "1.jpg", "the rest is measured")
		})
	}
}

// pngOf is a PNG whose pixels are all zero, packed as tightly as deflate can.
func pngOf(width, height, kind, depth, interlace int) []byte {
	channels := map[int]int{0: 1, 2: 3, 6: 4}[kind]
	var packed bytes.Buffer
	z, _ := zlib.NewWriterLevel(&packed, zlib.BestCompression)
	row := make([]byte, 1+(width*channels*depth+7)/8)
	for range height {
		_, _ = z.Write(row)
	}
	_ = z.Close()
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(width)), uint32(height))
	head = append(head, byte(depth), byte(kind), 0, 0, byte(interlace))
	return bytes.Join([][]byte{[]byte("\x89PNG\r\n\x1a\n"), pngChunk("IHDR", head), pngChunk("IDAT", packed.Bytes()), pngChunk("IEND", nil)}, nil)
}

// hugeHEIC has the boxes of a HEIC (ISO/IEC 23008-12) whose picture claims a
// size, and 40 KB that are no picture.
func hugeHEIC(width, height uint32) []byte {
	ispe := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(make([]byte, 4), width), height)
	ipma := []byte{0, 0, 0, 0, 0, 0, 0, 1, 0, 1, 1, 0x81}
	meta := bytes.Join([][]byte{make([]byte, 4), isoBox("pitm", []byte{0, 0, 0, 0, 0, 1}), isoBox("iprp", isoBox("ipco", isoBox("ispe", ispe)), isoBox("ipma", ipma))}, nil)
	return bytes.Join([][]byte{isoBox("ftyp", []byte("heic\x00\x00\x00\x00mif1heic")), isoBox("meta", meta), isoBox("mdat", make([]byte, 40<<10))}, nil)
}

func isoBox(kind string, bodies ...[]byte) []byte {
	body := bytes.Join(bodies, nil)
	return append(append(binary.BigEndian.AppendUint32(nil, uint32(len(body)+8)), kind...), body...)
}

// jpegOf is a JPEG of one color.
func jpegOf(t *testing.T, width, height int) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = 120
	}
	return jpegBytes(t, grayAsColor{img})
}

// grayAsColor makes the encoder write three components.
type grayAsColor struct{ *image.Gray }

func (g grayAsColor) ColorModel() color.Model { return color.YCbCrModel }

func jpegBytes(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, nil))
	return b.Bytes()
}

// jpegClaiming is a small JPEG whose frame header claims another size.
func jpegClaiming(t *testing.T, width, height uint16) []byte {
	data := jpegOf(t, 600, 400)
	at := bytes.Index(data, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(data[at+5:], height)
	binary.BigEndian.PutUint16(data[at+7:], width)
	return data
}

// withSegments puts 255 of the longest segments into a JPEG, 16 MB.
func withSegments(data []byte, mark byte, head string, counted bool) []byte {
	out := append([]byte{}, data[:2]...)
	for i := range 255 {
		body := []byte(head)
		if counted {
			body = append(body, byte(i+1), 255)
		}
		body = append(body, make([]byte, 65_533-len(body))...)
		out = append(append(out, 0xff, mark, 0xff, 0xff), body...)
	}
	return append(out, data[2:]...)
}

// The largest pictures that are let in: memory is bounded by the limits of
// tiles/photo, whatever a file claims, and they are measured or refused.
// Measured: 148, 511, 366, 431 and 212 MB; three of the second in one run 515.
func TestMemoryOfTheLargestPictures(t *testing.T) {
	if os.Getenv("TWODIP_LONG") == "" {
		t.Skip("takes half a gigabyte of memory and a minute: set TWODIP_LONG=1")
	}
	dir := smallWall(t, 3, nil)
	finish(t, dir, "plan")
	for _, b := range []struct {
		name string
		data []byte
	}{
		{"1 gray.png", pngOf(10_000, 10_000, 0, 8, 0)},
		{"1 rgb.png", pngOf(9_100, 9_100, 2, 8, 0)},
		{"1 interlaced.png", pngOf(9_100, 9_100, 6, 8, 1)},
		{"1 deep.png", pngOf(6_400, 6_400, 6, 16, 0)},
		{"1.jpg", jpegOf(t, 12_000, 9_000)},
	} {
		t.Run(b.name, func(t *testing.T) {
			wall := copyWall(t, dir)
			put(t, wall, "tiles/photos/"+b.name, string(b.data))
			said, status, mb := peak(t, wall, "measure")
			t.Logf("%d bytes of %s: %d MB, exit %d: %s", len(b.data), b.name, mb, status, said)
			assert.Contains(t, []int{0, 1}, status, said)
			assert.NotContains(t, said, "panic")
			assert.Less(t, mb, 700)
		})
	}
	for i := range 3 {
		put(t, dir, fmt.Sprintf("tiles/photos/%d.png", i+1), string(pngOf(9_100, 9_100, 2, 8, 0)))
	}
	_, _, mb := peak(t, dir, "measure")
	t.Logf("three large ones in one run: %d MB", mb)
	assert.Less(t, mb, 700, "large ones are opened one at a time; two at once took 990")
}

// Text of any shape is read or refused in a sentence, within a bound in
// megabytes that leaves a margin over what was measured (in the comments).
func TestMemoryOfTexts(t *testing.T) {
	bomb := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for i := range 24 {
		bomb += fmt.Sprintf("%c: &%c [*%c%s]\n", 'b'+i, 'b'+i, 'a'+i, strings.Repeat(fmt.Sprintf(", *%c", 'a'+i), 8))
	}
	wall := smallWall(t, 3, nil)
	finish(t, wall, "plan")
	wide := func(size int) string { return strings.Repeat("0123456789abcde,", size/16) }
	for _, b := range []struct {
		file, text, says string
		bound            int
		command          string
	}{
		{"wall.yaml", bomb, "wall.yaml:1: has a text that begins with & or *", 80, "check"},                                                                     // 27
		{"content/glazes.yaml", "glazes:\n" + bomb, "content/glazes.yaml:2: has a text that begins with & or *", 80, "check"},                                   // 27
		{"content/glazes.yaml", strings.Repeat("- {code: A, name: b}\n", 1<<20/21), "content/glazes.yaml:2: the code A is also in line 1", 220, "check"},        // 142
		{"content/glazes.csv", "code,name,notes\nA,Ash," + strings.Repeat("x", 15<<20) + "\n", "content/glazes.csv:2: ", 260, "check"},                          // 155
		{"content/glazes.csv", wide(15 << 20), "content/glazes.csv:1: the table is larger than", 260, "check"},                                                  // 181
		{"content/glazes.csv", "code,name\n\"" + strings.Repeat("\n", 15<<20), "content/glazes.csv:2: a quotation mark is opened and not closed", 260, "check"}, // 117
		{"content/glazes.csv", "code,name\n" + strings.Repeat("A,b\n", 15<<18), "content/glazes.csv:200001: the table is larger", 260, "check"},                 // 124
		{"content/glazes.csv", "code,name\n" + strings.Repeat("x", 64<<20), "content/glazes.csv: is larger than 16 MB", 160, "check"},                           // 62
		{"tiles/log.csv", "piece,date,first,note\nx,2026-03-02,QM," + strings.Repeat("x", 15<<20) + "\n", "tiles/log.csv:2: a cell holds 15728640 letters", 300, "trace"},
		{"tiles/log.csv", "piece,date,first\n" + strings.Repeat(",", 15<<20), "tiles/log.csv:2: the table is larger than 200000 rows or 200 columns", 160, "trace"},
		{"tiles/log.csv", allDifferent(1_900), "", 300, "trace"},
		{"tiles/log.csv", allDifferent(8_000), "tiles/log.csv:2002: up to here the faults are written in more than 2000 different words", 160, "trace"},
		{"content/our-studio.md", strings.Repeat("|a", 500) + "|\n" + strings.Repeat("|-", 500) + "|\n" + strings.Repeat("|b\n", 20_000), "content/our-studio.md:40: the table has more than 20000 cells", 120, "build"},
		{"tiles/log.csv", "piece,date,first\n" + strings.Repeat("x,2026-03-02,QM\n", 180_000), "", 160, "trace"},                                             // 52
		{"content/our-studio.md", "# A\n\n" + strings.Repeat("*a **b `c` [d](e) ", 1<<20/18-9), "content/our-studio.md:3: has more than 2000", 120, "build"}, // 33
		{"content/our-studio.md", strings.Repeat("> ", 1<<19-9), "content/our-studio.md:1: is nested too deeply", 120, "build"},                              // 35
		{"content/our-studio.md", strings.Repeat("x", 64<<20), "content/our-studio.md: is larger than 1 MB", 120, "build"},                                   // 30
		{"content/our-studio.md", "# A\n\n" + strings.Repeat(strings.Repeat("![](*a **b `c` ~~d~~ e_f_ <g> &amp; \\h | i\n", 130)+"\n", 1<<20/44/131), "", 400, "build"},
	} {
		dir := copyWall(t, wall)
		if strings.HasSuffix(b.file, "glazes.yaml") {
			require.NoError(t, os.Remove(filepath.Join(dir, "content/glazes.csv")))
		}
		put(t, dir, b.file, b.text)
		said, status, mb := peak(t, dir, b.command)
		t.Logf("%s, %d bytes %.20q: %d MB", b.file, len(b.text), b.text, mb)
		assert.Equal(t, b.says != "", status == 1, "%.300s", said)
		assert.Contains(t, said, b.says)
		assert.Less(t, mb, b.bound, "%s %.20q", b.file, b.text)
	}
}

// allDifferent is a log in which no two cells of a column are the same.
func allDifferent(rows int) string {
	var b strings.Builder
	b.WriteString("piece,date,maker,first,load,shelf,result,faults\n")
	for i := range rows {
		fmt.Fprintf(&b, "p%d,2026-03-02,m%d,QM,l%d,s%d,faulty,w%d\n", i, i, i, i, i)
	}
	return b.String()
}
