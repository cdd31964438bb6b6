package photo_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"image"
	stdcolor "image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/tiff"

	"github.com/twodip/twodip/tiles/photo"
)

// insertICC puts an iCCP chunk behind a PNG's header.
func insertICC(t testing.TB, data, icc []byte) []byte {
	t.Helper()
	var packed bytes.Buffer
	packed.WriteString("made\x00\x00")
	z := zlib.NewWriter(&packed)
	_, err := z.Write(icc)
	require.NoError(t, err)
	require.NoError(t, z.Close())
	const header = 8 + 12 + 13
	return bytes.Join([][]byte{data[:header], chunk("iCCP", packed.Bytes()), data[header:]}, nil)
}

func chunk(kind string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	out = append(append(out, kind...), body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

func madePicture() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 40, 30))
	for i := range 40 * 30 {
		img.SetNRGBA(i%40, i/40, stdcolor.NRGBA{R: uint8(i), G: uint8(i / 7), B: 99, A: 255})
	}
	return img
}

// Every cut of a picture is refused or decodes whole: grey filler is never
// measured.
func TestACutPictureIsRefused(t *testing.T) {
	var j, p, f bytes.Buffer
	require.NoError(t, jpeg.Encode(&j, madePicture(), nil))
	require.NoError(t, png.Encode(&p, madePicture()))
	require.NoError(t, tiff.Encode(&f, madePicture(), nil))
	for name, data := range map[string][]byte{"JPEG": j.Bytes(), "PNG": p.Bytes()} {
		for cut := range len(data) - 2 {
			_, err := photo.Open(data[:cut])
			require.Error(t, err, "%s cut at %d of %d", name, cut, len(data))
		}
	}
	whole, err := photo.Open(f.Bytes())
	require.NoError(t, err)
	for cut := 0; cut < f.Len()/2; cut += 7 {
		got, err := photo.Open(f.Bytes()[:cut])
		if err == nil {
			assert.Equal(t, whole.Image, got.Image, "TIFF cut at %d", cut)
		}
	}
}

// Real photos cut anywhere, and pictures that were cut when they were made.
func TestACutPhotoIsRefused(t *testing.T) {
	data, err := os.ReadFile(shared(t, "photos/camera/jpeg/canon-s230-daisy.jpg"))
	require.NoError(t, err)
	for _, share := range []float64{0.05, 0.3, 0.6, 0.9, 0.999} {
		_, err := photo.Open(data[:int(share*float64(len(data)))])
		assert.ErrorContains(t, err, "cut short", "at %v", share)
	}
}

func TestTransparentPixelsAreLeftOut(t *testing.T) {
	img := madePicture()
	img.SetNRGBA(3, 4, stdcolor.NRGBA{R: 10, G: 10, B: 10, A: 20})
	img.SetNRGBA(5, 4, stdcolor.NRGBA{R: 10, G: 20, B: 30, A: 200})
	var buf bytes.Buffer
	require.NoError(t, png.Encode(&buf, img))
	p, err := photo.Open(buf.Bytes())
	require.NoError(t, err)
	row := make([]uint16, 9)
	p.Codes(4, 3, 6, row)
	assert.Equal(t, []uint16{255, 255, 255}, row[:3], "a hole is white: it counts as blown")
	assert.Equal(t, []uint16{10, 20, 30}, row[6:9], "what shows keeps its own color")
}

// A chunk of a profile out of its order is put in order; one that is missing
// is said (files and claims: SOURCE.txt beside them).
func TestProfilesInChunks(t *testing.T) {
	dir := shared(t, "hostile/selfmade")
	for file, want := range map[string]string{"icc-split-3-chunks-out-of-order.jpg": "Display P3"} {
		if _, err := os.Stat(filepath.Join(dir, file)); err != nil {
			t.Skipf("%s is not on this machine", file)
		}
		assert.Equal(t, want, open(t, "hostile/selfmade/"+file).Profile.String(), file)
	}
}

// The same, self-made: a JPEG with its profile in three chunks, the second last.
func TestChunksOutOfOrderAreOneProfile(t *testing.T) {
	icc, err := os.ReadFile(shared(t, compact+"DisplayP3-v4.icc"))
	require.NoError(t, err)
	var buf bytes.Buffer
	require.NoError(t, jpeg.Encode(&buf, madePicture(), nil))
	third := len(icc) / 3
	parts := [][]byte{icc[:third], icc[third : 2*third], icc[2*third:]}
	with := func(order ...int) []byte {
		out := append([]byte(nil), buf.Bytes()[:2]...)
		for _, i := range order {
			body := append([]byte("ICC_PROFILE\x00"), byte(i+1), 3)
			body = append(body, parts[i]...)
			out = append(out, 0xff, 0xe2)
			out = binary.BigEndian.AppendUint16(out, uint16(len(body)+2))
			out = append(out, body...)
		}
		return append(out, buf.Bytes()[2:]...)
	}
	p, err := photo.Open(with(2, 0, 1))
	require.NoError(t, err)
	assert.Equal(t, "Display P3", p.Profile.String())
	assert.Empty(t, p.Notes)
	p, err = photo.Open(with(2, 0))
	require.NoError(t, err)
	assert.Equal(t, "sRGB assumed", p.Profile.String())
	assert.Contains(t, p.Notes[0], "damaged")
}

// A picture that claims more than the bounds allow is refused from its header,
// in whichever format it claims it.
func TestAPictureThatClaimsTooMuchIsRefused(t *testing.T) {
	big := binary.BigEndian.AppendUint32
	var j bytes.Buffer
	require.NoError(t, jpeg.Encode(&j, madePicture(), nil))
	at := bytes.Index(j.Bytes(), []byte{0xff, 0xc0})
	claim := append([]byte(nil), j.Bytes()...)
	copy(claim[at+5:], []byte{0x27, 0x10, 0x27, 0x10}) // 10,000 by 10,000 in 1 kB
	head := big(big(nil, 30000), 30000)
	ispe := box("ispe", append([]byte{0, 0, 0, 0}, head...))
	heic := bytes.Join([][]byte{
		box("ftyp", []byte("heic\x00\x00\x00\x00mif1heic")),
		box("meta", append([]byte{0, 0, 0, 0}, box("iprp", box("ipco", ispe))...)),
	}, nil)
	for name, data := range map[string][]byte{"JPEG": claim, "HEIC": heic} {
		_, err := photo.Open(data)
		assert.IsType(t, photo.Refusal{}, err, name)
	}
	_, err := photo.Open(heic)
	assert.ErrorContains(t, err, "too large: 30000 by 30000")
}

func box(kind string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)+8))
	return append(append(out, kind...), body...)
}
