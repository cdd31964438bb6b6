//go:build linux

package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"image"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

var photoWeapons = []weapon{
	{"picture with another ending", wrongEnding},
	{"picture cut short", func(r *rand.Rand, w ready) attack { return ofPhoto(r, cutShort(r, anyPicture(r, w))) }},
	{"picture with bytes turned", func(r *rand.Rand, w ready) attack { return ofPhoto(r, turned(r, anyPicture(r, w))) }},
	{"picture with numbers at their ends", func(r *rand.Rand, w ready) attack { return ofPhoto(r, extreme(r, anyPicture(r, w))) }},
	{"no picture", noPicture},
	{"JPEG with a hostile profile", func(r *rand.Rand, w ready) attack {
		return ofPhoto(r, withSegment(w.photo, 0xe2, append([]byte("ICC_PROFILE\x00\x01\x01"), hostileProfile(r)...)))
	}},
	{"PNG with a hostile profile", pngWithProfile},
	{"JPEG with hostile EXIF", func(r *rand.Rand, w ready) attack {
		return ofPhoto(r, withSegment(w.photo, 0xe1, append([]byte("Exif\x00\x00"), hostileExif(r)...)))
	}},
	{"picture of a size that is claimed", claimed},
	{"photo of a hostile name", photoNames},
}

// ofPhoto puts a picture among the photos and has it measured.
func ofPhoto(r *rand.Rand, data []byte) attack {
	name := fmt.Sprintf("%d again%s", 1+r.IntN(9), pick(r, ".jpg", ".png", ".heic", ".tif", ".webp", ".JPEG"))
	return attack{files: map[string]string{"tiles/photos/" + name: string(data)},
		commands: [][]string{{"measure"}, {"check"}, pick(r, []string{"find", "tiles/photos/" + name}, []string{"build"})}}
}

func pick[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

// anyPicture is the photo in any form, of our own making or a camera's.
func anyPicture(r *rand.Rand, w ready) []byte {
	img, _ := jpeg.Decode(bytes.NewReader(w.photo))
	var b bytes.Buffer
	switch r.IntN(7) {
	case 0:
		_ = png.Encode(&b, img)
	case 1:
		_ = tiff.Encode(&b, img, &tiff.Options{Compression: pick(r, tiff.Uncompressed, tiff.Deflate), Predictor: r.IntN(2) == 0})
	case 2:
		_ = gif.Encode(&b, img, nil)
	case 3:
		_ = bmp.Encode(&b, img)
	case 4, 5:
		return shared(r)
	default:
		return w.photo
	}
	return b.Bytes()
}

// shared is a picture of other hands, from beside the checkout; a JPEG where
// there is none.
func shared(r *rand.Rand) []byte {
	var all []string
	for _, some := range []string{"hostile/*/*.*", "photos/camera/heic/*.heic", "photos/icc/*/*.jpg", "photos/known-patches/*.png", "photos/orientation/tiny/*.jpg", "greedy/*.png"} {
		found, _ := filepath.Glob(filepath.Join("..", "..", "..", "shared", some))
		all = append(all, found...)
	}
	if len(all) > 0 {
		if data, err := os.ReadFile(all[r.IntN(len(all))]); err == nil && len(data) > 0 {
			return data
		}
	}
	var b bytes.Buffer
	_ = jpeg.Encode(&b, image.NewRGBA(image.Rect(0, 0, 90, 120)), nil)
	return b.Bytes()
}

func wrongEnding(r *rand.Rand, w ready) attack { return ofPhoto(r, anyPicture(r, w)) }

func cutShort(r *rand.Rand, data []byte) []byte { return data[:r.IntN(len(data))] }

func turned(r *rand.Rand, data []byte) []byte {
	out := bytes.Clone(data)
	reach := pick(r, len(out), min(len(out), 600))
	for range 1 + r.IntN(40) {
		out[r.IntN(reach)] ^= byte(1 << r.IntN(8))
	}
	return out
}

// extreme writes numbers at the ends of their range over bytes of the head.
func extreme(r *rand.Rand, data []byte) []byte {
	out := bytes.Clone(data)
	reach := pick(r, min(len(out), 64), min(len(out), 2000), len(out))
	for range 1 + r.IntN(3) {
		if at := r.IntN(reach); at+4 <= len(out) {
			binary.BigEndian.PutUint32(out[at:], pick[uint32](r, 0, 1, 0x7fffffff, 0x80000000, 0xffffffff, 0xffff, 0x10000, 0xffff0000, 0x00ffffff))
		}
	}
	return out
}

func noPicture(r *rand.Rand, w ready) attack {
	return ofPhoto(r, []byte(pick(r, "", "\x00", "<svg xmlns='http://www.w3.org/2000/svg' onload='owned()'/>", "%PDF-1.7\n", "PK\x03\x04", "<!doctype html><script>owned()</script>",
		"\x00\x00\x00\x18ftypmp42", "\xff\xd8", "\xff\xd8\xff\xe1\xff\xff", "\x89PNG\r\n\x1a\n", "II*\x00\xff\xff\xff\xff", "RIFF\xff\xff\xff\xffWEBPVP8L", "GIF89a",
		strings.Repeat("\x00", 1<<20), strings.Repeat("\xff\xd8\xff\xe0\x00\x10JFIF", 50_000), "\x7fELF"+strings.Repeat("x", 4096))))
}

func withSegment(data []byte, mark byte, body []byte) []byte {
	body = body[:min(len(body), 65_533)]
	head := binary.BigEndian.AppendUint16([]byte{0xff, mark}, uint16(len(body)+2))
	return bytes.Join([][]byte{data[:2], head, body, data[2:]}, nil)
}

// hostileProfile is a profile (ICC.1:2022) of a few tags whose counts, places
// and lengths are of any size.
func hostileProfile(r *rand.Rand) []byte {
	if found, _ := filepath.Glob(filepath.Join("..", "..", "..", "shared", "photos", "icc", "compact-profiles", "*.icc")); len(found) > 0 && r.IntN(2) == 0 {
		if data, err := os.ReadFile(found[r.IntN(len(found))]); err == nil {
			return extreme(r, data)
		}
	}
	number := func(likely uint32) []byte {
		if r.IntN(3) == 0 {
			likely = pick[uint32](r, 0, 1, 0xffff, 0x7fffffff, 0x80000000, 0xffffffff, r.Uint32())
		}
		return binary.BigEndian.AppendUint32(nil, likely)
	}
	tags := []string{"rXYZ", "gXYZ", "bXYZ", "wtpt", "rTRC", "gTRC", "bTRC", "A2B0", "chad", "desc"}
	out := make([]byte, 128)
	copy(out[8:], "\x04\x40\x00\x00mntrRGB XYZ ")
	copy(out[36:], "acsp")
	out = append(out, number(uint32(len(tags)))...)
	for i, tag := range tags {
		out = append(out, tag...)
		out = append(append(out, number(uint32(132+12*len(tags)+40*i))...), number(40)...)
	}
	for range tags {
		out = append(out, pick(r, "XYZ ", "curv", "para", "mAB ", "mft2", "mft1", "sf32", "mluc")...)
		out = append(append(out, 0, 0, 0, 0), number(8)...)
		for range 7 {
			out = append(out, number(r.Uint32N(0x20000))...)
		}
	}
	binary.BigEndian.PutUint32(out, uint32(len(out)))
	return out
}

func pngWithProfile(r *rand.Rand, w ready) attack {
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	_, _ = z.Write(hostileProfile(r))
	if r.IntN(4) == 0 { // and a bomb behind it
		_, _ = z.Write(make([]byte, 100<<20))
	}
	_ = z.Close()
	data := pngOf(40, 60, 2, 8, 0)
	chunk := pngChunk("iCCP", append([]byte("a\x00\x00"), packed.Bytes()...))
	return ofPhoto(r, bytes.Join([][]byte{data[:33], chunk, data[33:]}, nil))
}

// hostileExif is a directory (Exif 2.32) of entries whose kinds, counts and
// places are of any size, and which may lead back to itself.
func hostileExif(r *rand.Rand) []byte {
	order, head := pick[binary.AppendByteOrder](r, binary.LittleEndian, binary.BigEndian), "MM\x00*"
	if order == binary.LittleEndian {
		head = "II*\x00"
	}
	out := order.AppendUint32([]byte(head), pick[uint32](r, 8, 8, 8, 0, 0xffffffff))
	entries := 1 + r.IntN(30)
	out = order.AppendUint16(out, pick(r, uint16(entries), uint16(entries), 0xffff))
	for range entries {
		out = order.AppendUint16(out, pick[uint16](r, 0x0112, 0x8769, 0x8825, 0x9003, 0x010f, 0x9286, 0xa005, 0x014a, 0x0201, 0x0202, uint16(r.Uint32())))
		out = order.AppendUint16(out, uint16(r.IntN(15)))
		out = order.AppendUint32(out, pick[uint32](r, 1, 2, 20, 0xffff, 0x7fffffff, 0xffffffff))
		out = order.AppendUint32(out, pick[uint32](r, 8, 0, 6, 9, 50, 0xffff, 0xffffffff))
	}
	out = order.AppendUint32(out, pick[uint32](r, 8, 0, 0xfffffff0))
	return append(out, bytes.Repeat([]byte("2026:99:99 =cmd<b>\x00"), r.IntN(200))...)
}

func claimed(r *rand.Rand, w ready) attack {
	side := func() int { return pick(r, 1, 2, 13, 3_000, 9_000, 10_100, 30_000, 65_500) }
	data := bytes.Clone(w.photo)
	switch at := bytes.Index(data, []byte{0xff, 0xc0}); r.IntN(3) {
	case 0:
		binary.BigEndian.PutUint16(data[at+5:], uint16(side()))
		binary.BigEndian.PutUint16(data[at+7:], uint16(side()))
	case 1:
		data = hugeHEIC(uint32(side()), uint32(side()))
	default:
		data = pngOf(pick(r, 1, 7, 3_000, 9_000), pick(r, 1, 5, 3_000, 9_000), pick(r, 0, 2, 6), pick(r, 8, 16), r.IntN(2))
	}
	return ofPhoto(r, data)
}

func photoNames(r *rand.Rand, w ready) attack {
	name := pick(r, "1 <script>owned()<script>.jpg", "-1.jpg", "--help.jpg", "1\n2.jpg", "=cmd|' C calc'!A0.jpg", "1 \u202egpj.exe.jpg", "1"+strings.Repeat("\u0301", 100)+".jpg",
		"99999999999999999999.jpg", "0.jpg", "1.jpg.exe", "1 .jpg", "CON.jpg", "1 "+strings.Repeat("釉", 80)+".jpg", "1 \xff\xfe.jpg", "1,2;3\t4.jpg", "1 {{.}} %s%n.jpg", `1 "quoted".jpg`,
		".jpg", "1", "１.jpg", "1 back/2/3.jpg", strings.Repeat("deep/", 60)+"1.jpg", "a:b.jpg", `1\2.jpg`, "1 \x1b[31m.jpg", "#1.jpg", "'1'.jpg", "1.JPG~")
	return attack{files: map[string]string{"tiles/photos/" + name: string(w.photo)},
		commands: [][]string{{"measure"}, {"check"}, {"build"}, {"measure", name}, {"find", name}}}
}
