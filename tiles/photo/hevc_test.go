package photo

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// writtenBits is the counterpart of bitReader.
type writtenBits struct {
	data []byte
	n    int
}

func (w *writtenBits) bits(v uint32, n int) {
	for i := n - 1; i >= 0; i-- {
		if w.n%8 == 0 {
			w.data = append(w.data, 0)
		}
		w.data[w.n/8] |= byte(v>>i&1) << (7 - w.n%8)
		w.n++
	}
}

func (w *writtenBits) golomb(v uint32) {
	length := 0
	for (v+1)>>length > 1 {
		length++
	}
	w.bits(0, length)
	w.bits(v+1, length+1)
}

// parameterSet is a sequence parameter set up to its size.
func parameterSet(width, height uint32) []byte {
	w := &writtenBits{data: []byte{0x42, 1}, n: 16}
	w.bits(0, 8)
	for range 12 {
		w.bits(0x5a, 8)
	}
	w.golomb(0)
	w.golomb(1)
	w.golomb(width)
	w.golomb(height)
	return append(w.data, 0x80)
}

// A stream that is larger than its box says is refused by what the stream says.
func TestAStreamThatHidesItsSizeIsRefused(t *testing.T) {
	unit := parameterSet(30_000, 20_000)
	isoBox := func(kind string, body []byte) []byte {
		return append(append(binary.BigEndian.AppendUint32(nil, uint32(len(body)+8)), kind...), body...)
	}
	ispe := isoBox("ispe", []byte{0, 0, 0, 0, 0, 0, 2, 128, 0, 0, 1, 224})
	file := func(properties, data []byte) []byte {
		meta := isoBox("meta", append([]byte{0, 0, 0, 0}, isoBox("iprp", isoBox("ipco", append(ispe, properties...)))...))
		return append(append(isoBox("ftyp", []byte("heic\x00\x00\x00\x00mif1heic")), meta...), isoBox("mdat", data)...)
	}
	sized := func(lengthBytes int) []byte {
		return append(make([]byte, lengthBytes-1), append([]byte{byte(len(unit))}, unit...)...)
	}
	hvcC := isoBox("hvcC", append(append(make([]byte, 22), 1, 33, 0, 1), sized(2)...))
	_, err := scanHEIF(file(nil, make([]byte, 99)))
	require.NoError(t, err)
	for name, data := range map[string][]byte{"in its properties": file(hvcC, nil), "in its data": file(nil, sized(4))} {
		_, err := scanHEIF(data)
		assert.ErrorContains(t, err, "too large: 30000 by 20000 pixels", name)
	}
}

// The tiles of phones' pictures are 512 pixels square, as their boxes say too
// (three photographs from phones, ../shared/photos/camera/heic).
func TestStreamSizesOfPhones(t *testing.T) {
	dir, err := filepath.Abs(".")
	require.NoError(t, err)
	for filepath.Base(dir) != "tiles" {
		dir = filepath.Dir(dir)
	}
	files, _ := filepath.Glob(filepath.Join(dir, "../../shared/photos/camera/heic/*.heic"))
	if len(files) == 0 {
		t.Skip("../shared/photos is missing: phones' HEICs are not read")
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		seen := map[[2]int]int{}
		ipco := childBox(childBox(childBox(data, "meta")[4:], "iprp"), "ipco")
		streamSizes(ipco, data, func(w, h int) { seen[[2]int{w, h}]++ })
		assert.Positive(t, seen[[2]int{512, 512}], "%s: %v", file, seen)
		_, err = scanHEIF(data)
		assert.NoError(t, err)
	}
}
