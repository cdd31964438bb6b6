package photo_test

import (
	"encoding/binary"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/photo"
)

// withTag is the made profile with a tag in place of the one of that name, or
// beside those it has.
func withTag(sig string, data []byte) []byte {
	icc := madeICC()
	count := binary.BigEndian.Uint32(icc[128:])
	out := append([]byte{}, icc[:132]...)
	for at := 132; at < int(132+12*count); at += 12 {
		entry := append([]byte{}, icc[at:at+12]...)
		if string(entry[:4]) == sig {
			continue
		}
		binary.BigEndian.PutUint32(entry[4:], binary.BigEndian.Uint32(entry[4:])+12)
		out = append(out, entry...)
	}
	for len(out) < int(132+12*count) { // the place of the tag that is replaced
		out = append(out, "none\x00\x00\x01\x00\x00\x00\x00\x00"...)
	}
	out = append(out, sig...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(icc)+12))
	out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
	out = append(append(out, icc[132+12*count:]...), data...)
	binary.BigEndian.PutUint32(out[128:], count+1)
	binary.BigEndian.PutUint32(out, uint32(len(out)))
	return out
}

func numbers(kind string, words ...uint32) []byte {
	out := append([]byte(kind), 0, 0, 0, 0)
	for _, w := range words {
		out = binary.BigEndian.AppendUint32(out, w)
	}
	return out
}

// manyNames are records that share one long string: 160 GB in all.
func manyNames() []byte {
	const records = 40_000
	out := numbers("mluc", records, 12)
	for range records {
		out = binary.BigEndian.AppendUint32(append(out, "enUS"...), 4_000_000)
		out = binary.BigEndian.AppendUint32(out, 0)
	}
	return append(out, make([]byte, 4_000_000-len(out))...)
}

// zigzag is a curve that rises and falls, over and over.
func zigzag(n uint32) []byte {
	out := numbers("curv", n)
	for i := range n {
		out = binary.BigEndian.AppendUint16(out, uint16(i%2)*60_000)
	}
	return out
}

// steps is a chain whose table has the greatest number of points and none of
// its numbers: a precision of no bytes.
func steps(precision byte) []byte {
	out := numbers("mAB ", 0x03030000, 32, 0, 0, 80, 0)
	for range 3 {
		out = append(out, numbers("curv", 0)...)
	}
	out = append(out, make([]byte, 80-len(out))...)
	out = append(append(out, 255, 255, 255), make([]byte, 13)...)
	return append(out, precision, 0, 0, 0)
}

// greedy are profiles whose tags claim more than they hold, or that would take
// memory or time out of all proportion.
func greedy() map[string][]byte {
	return map[string][]byte{
		"curve of 2^32-1 points":       withTag("rTRC", numbers("curv", 1<<32-1, 0)),
		"curve of a point too many":    withTag("rTRC", numbers("curv", 3, 0)),
		"jagged curve of 65,536":       withTag("rTRC", zigzag(1<<16)),
		"names of 160 GB":              withTag("desc", manyNames()),
		"mft1, 255 steps a side":       withTag("A2B0", append(numbers("mft1", 0x0303ff00), make([]byte, 4000)...)),
		"mft2, 255 steps a side":       withTag("A2B0", append(numbers("mft2", 0x0303ff00), make([]byte, 4000)...)),
		"mft1, 200 channels":           withTag("A2B0", append(numbers("mft1", 0xc8c80200), make([]byte, 4000)...)),
		"mAB, a table of no bytes":     withTag("A2B0", steps(0)),
		"mAB, a table of bytes":        withTag("A2B0", steps(1)),
		"mAB, a table beyond the end":  withTag("A2B0", numbers("mAB ", 0x03030000, 0, 0, 0, 1<<31, 0, 0)),
		"mAB, a curve of 2^32-1":       withTag("A2B0", append(numbers("mAB ", 0x03030000, 32, 0, 0, 0, 0), numbers("curv", 1<<32-1, 0)...)),
		"a tag beyond the end":         append(madeICC()[:136], "\xff\xff\xff\xf0\xff\xff\xff\xff"...),
		"more tags than there is room": append(madeICC()[:128], 0x7f, 0xff, 0xff, 0xff),
	}
}

// A greedy profile is left aside with a word; no memory is taken for it.
func TestAProfileIsHeldToWhatItHolds(t *testing.T) {
	for name, icc := range greedy() {
		t.Run(name, func(t *testing.T) {
			data := pngWithProfile(t, icc, false)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			p, err := photo.Open(data)
			runtime.ReadMemStats(&after)
			require.NoError(t, err)
			assert.Contains(t, strings.Join(p.Notes, " "), "damaged, so sRGB is assumed")
			assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(40<<20), "bytes taken while it was opened")
		})
	}
}

// What is allowed: curves as fine as 16 bits can tell, and names that share
// their strings.
func TestARichProfileIsRead(t *testing.T) {
	fine := numbers("curv", 1<<16)
	for i := range 1 << 16 {
		fine = binary.BigEndian.AppendUint16(fine, uint16(i))
	}
	shared := append(numbers("mluc", 3, 12), []byte("enUS\x00\x00\x00\x02\x00\x00\x00\x34frFR\x00\x00\x00\x02\x00\x00\x00\x34deDE\x00\x00\x00\x02\x00\x00\x00\x34\x00Q")...)
	for name, icc := range map[string][]byte{"fine": withTag("rTRC", fine), "shared": withTag("desc", shared)} {
		p := withProfile(t, icc, false)
		assert.Empty(t, p.Notes, name)
		assert.False(t, p.Profile.Assumed, name)
	}
	assert.Equal(t, "Q", withProfile(t, withTag("desc", shared), false).Profile.Name)
}

// Profiles of other makers are read as ever: none of those at hand is taken
// for damaged that LittleCMS reads.
func TestTheBoundsRefuseNoRealProfile(t *testing.T) {
	all, err := filepath.Glob(filepath.Join(shared(t, "photos/icc"), "*", "*.icc"))
	require.NoError(t, err)
	require.Greater(t, len(all), 20)
	for _, path := range all {
		icc, err := os.ReadFile(path)
		require.NoError(t, err)
		p, err := photo.Open(pngWithProfile(t, icc, strings.Contains(strings.ToLower(path), "gray")))
		if err == nil {
			assert.NotContains(t, strings.Join(p.Notes, " "), "damaged", path)
		}
	}
}

// The file that took 8.6 GB: see SOURCE.txt beside it.
func TestTheGreedyCurveIsLeftAside(t *testing.T) {
	data, err := os.ReadFile(shared(t, "greedy/icc-curv-count-2e32.png"))
	require.NoError(t, err)
	p, err := photo.Open(data)
	require.NoError(t, err)
	assert.Equal(t, []string{"its color profile is damaged, so sRGB is assumed"}, p.Notes)
}
