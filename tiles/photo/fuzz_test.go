package photo_test

import (
	"bytes"
	"encoding/binary"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"github.com/twodip/twodip/tiles/photo"
)

// tooMuch skips inputs whose header alone asks for more work than a fuzz run
// should spend on one of them.
const tooMuch = 64 << 10

// FuzzOpen: whatever the bytes, a picture or a Refusal, and the picture can be
// walked through.
func FuzzOpen(f *testing.F) {
	var j, p, t bytes.Buffer
	require.NoError(f, jpeg.Encode(&j, madePicture(), nil))
	require.NoError(f, png.Encode(&p, madePicture()))
	require.NoError(f, tiff.Encode(&t, madePicture(), nil))
	for _, seed := range [][]byte{j.Bytes(), p.Bytes(), t.Bytes(), box("ftyp", []byte("heic")),
		[]byte("RIFF\x20\x00\x00\x00WEBPVP8 \x10\x00\x00\x00"), withEXIF(j.Bytes(), 6)} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > tooMuch {
			return
		}
		walk(t, data)
	})
}

// FuzzEXIF puts fuzzed EXIF into a picture that is otherwise whole.
func FuzzEXIF(f *testing.F) {
	f.Add([]byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00"))
	f.Add([]byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x04\x00\x01\x00\x00\x00\x06\x00\x00\x00\x08\x00\x00\x00"))
	var j bytes.Buffer
	require.NoError(f, jpeg.Encode(&j, madePicture(), nil))
	f.Fuzz(func(t *testing.T, tags []byte) {
		if len(tags) > 60_000 {
			return
		}
		walk(t, withBlock(j.Bytes(), tags))
	})
}

// FuzzICC puts a fuzzed profile into a picture that is otherwise whole.
func FuzzICC(f *testing.F) {
	header := make([]byte, 132)
	copy(header[12:], "mntrRGB XYZ ")
	copy(header[36:], "acsp")
	f.Add(header)
	f.Add(madeICC())
	for _, icc := range greedy() {
		f.Add(icc)
	}
	f.Fuzz(func(t *testing.T, icc []byte) {
		if len(icc) > tooMuch {
			return
		}
		walk(t, pngWithProfile(t, icc, len(icc)%2 == 0))
	})
}

// madeICC is a whole profile of our own: a matrix and one gamma.
func madeICC() []byte {
	tags := []struct {
		sig  string
		data []byte
	}{
		{"rXYZ", xyzTag(0.4361, 0.2225, 0.0139)}, {"gXYZ", xyzTag(0.3851, 0.7169, 0.0971)}, {"bXYZ", xyzTag(0.1431, 0.0606, 0.7141)},
		{"rTRC", []byte("curv\x00\x00\x00\x00\x00\x00\x00\x01\x02\x33\x00\x00")},
	}
	out := make([]byte, 128)
	out[8] = 2
	copy(out[12:], "mntrRGB XYZ ")
	copy(out[36:], "acsp")
	copy(out[68:], xyzTag(0.9642, 1, 0.8249)[8:])
	count := len(tags) + 2
	out = binary.BigEndian.AppendUint32(out, uint32(count))
	at := 128 + 4 + 12*count
	var body []byte
	entry := func(sig string, from, size int) {
		out = append(out, sig...)
		out = binary.BigEndian.AppendUint32(out, uint32(from))
		out = binary.BigEndian.AppendUint32(out, uint32(size))
	}
	for _, tag := range tags {
		entry(tag.sig, at+len(body), len(tag.data))
		if tag.sig == "rTRC" {
			entry("gTRC", at+len(body), len(tag.data))
			entry("bTRC", at+len(body), len(tag.data))
		}
		body = append(body, tag.data...)
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out, uint32(len(out)))
	return out
}

func xyzTag(x, y, z float64) []byte {
	out := []byte("XYZ \x00\x00\x00\x00")
	for _, v := range []float64{x, y, z} {
		out = binary.BigEndian.AppendUint32(out, uint32(int32(v*65536+0.5)))
	}
	return out
}

// The profile made for the seeds is whole: sRGB's primaries with a gamma of 2.2.
func TestTheMadeProfileIsRead(t *testing.T) {
	p, err := photo.Open(pngWithProfile(t, madeICC(), false))
	require.NoError(t, err)
	require.Empty(t, p.Notes)
	require.False(t, p.Profile.Assumed)
	require.InDelta(t, 50.3, codesToLab(p, 119, 119, 119).L, 0.3, "L* of (119/255)^2.2")
}

func withEXIF(data []byte, orientation byte) []byte {
	return withBlock(data, []byte{'M', 'M', 0, '*', 0, 0, 0, 8, 0, 1, 1, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0})
}

// withBlock puts an EXIF block at the front of a JPEG.
func withBlock(data, tags []byte) []byte {
	body := append([]byte("Exif\x00\x00"), tags...)
	out := append([]byte(nil), data[:2]...)
	out = append(out, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
	return append(append(out, body...), data[2:]...)
}

func walk(t *testing.T, data []byte) {
	p, err := photo.Open(data)
	if err != nil {
		require.IsType(t, photo.Refusal{}, err)
		return
	}
	row := make([]uint16, 3*p.Width())
	for y := range p.Height() {
		p.Codes(y, 0, p.Width(), row)
	}
	small := p.Small(p.Image.Bounds(), 64)
	require.Positive(t, small.Rect.Dx())
	p.Luma()
}
