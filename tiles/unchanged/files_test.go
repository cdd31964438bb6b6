package unchanged

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// long ago is settled on every disk.
var longAgo = time.Now().Add(-time.Hour)

func put(t *testing.T, dir, name, text string, when time.Time) {
	t.Helper()
	path := filepath.Join(dir, name)
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	require.NoError(t, os.Chtimes(path, when, when))
}

// The example of FIPS 180-4 for the message "abc".
func TestSumIsTheStandardsHash(t *testing.T) {
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", Sum([]byte("abc")))
	dir := t.TempDir()
	put(t, dir, "a", "abc", longAgo)
	got, err := Read(filepath.Join(dir, "cache", "x.files"), dir).Sum("a")
	require.NoError(t, err)
	assert.Equal(t, Sum([]byte("abc")), got)
}

// A settled file is not read again: here its bytes change behind the back of
// size and time, which nothing but reading it could tell.
func TestASettledFileIsNotReadAgain(t *testing.T) {
	dir := t.TempDir()
	memory := filepath.Join(dir, "cache", "x.files")
	put(t, dir, "old", "abc", longAgo)
	put(t, dir, "young", "abc", time.Now())
	f := Read(memory, dir)
	for _, name := range []string{"old", "young"} {
		_, err := f.Sum(name)
		require.NoError(t, err)
	}
	require.NoError(t, f.Save())

	info, err := os.Stat(filepath.Join(dir, "young"))
	require.NoError(t, err)
	put(t, dir, "old", "xyz", longAgo)
	put(t, dir, "young", "xyz", info.ModTime())
	f = Read(memory, dir)
	old, err := f.Sum("old")
	require.NoError(t, err)
	young, err := f.Sum("young")
	require.NoError(t, err)
	assert.Equal(t, Sum([]byte("abc")), old, "trusted by size and time")
	assert.Equal(t, Sum([]byte("xyz")), young, "changed within the grain of a disk's clock: read again")
}

func TestAnotherTimeOrSizeIsReadAgain(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "a", "abc", longAgo)
	f := Read(filepath.Join(dir, "cache", "x.files"), dir)
	require.NoError(t, f.Note("a", "made of b", Sum([]byte("abc"))))
	assert.True(t, f.Holds("a", "made of b"))
	assert.False(t, f.Holds("a", "made of c"))
	assert.True(t, f.Same("a", Sum([]byte("abc"))))

	put(t, dir, "a", "abc", longAgo.Add(time.Second))
	assert.True(t, f.Holds("a", "made of b"), "touched, not changed")
	put(t, dir, "a", "abd", longAgo.Add(2*time.Second))
	assert.False(t, f.Holds("a", "made of b"))
	assert.False(t, f.Same("a", Sum([]byte("abc"))))
	put(t, dir, "a", "abc", longAgo.Add(3*time.Second))
	assert.False(t, f.Holds("a", "made of b"), "who has made these bytes is not known")
	require.NoError(t, os.Remove(filepath.Join(dir, "a")))
	assert.False(t, f.Same("a", Sum([]byte("abc"))))
}

func TestWhatIsKeptIsReadBack(t *testing.T) {
	dir := t.TempDir()
	memory := filepath.Join(dir, "cache", "x.files")
	names := []string{"a", "with space", "with \"quote\"", "ümlaut"}
	f := Read(memory, dir)
	for _, name := range names {
		put(t, dir, name, name, longAgo)
		require.NoError(t, f.Note(name, "from "+name, Sum([]byte(name))))
	}
	require.NoError(t, f.Save())
	require.NoError(t, os.Remove(filepath.Join(dir, "a")))
	f = Read(memory, dir)
	for _, name := range names[1:] {
		assert.True(t, f.Holds(name, "from "+name), name)
	}
	require.NoError(t, f.Save())
	assert.NotContains(t, Read(memory, dir).known, "a", "what is gone is forgotten")

	whole, err := os.ReadFile(memory)
	require.NoError(t, err)
	for _, broken := range []string{"", string(whole[:len(whole)-3]), string(whole[10:]), string(whole) + "x\n", heading + "\nx\ty\n"} {
		require.NoError(t, os.WriteFile(memory, []byte(broken), 0o644))
		assert.Empty(t, Read(memory, dir).known, "%q is nothing known", broken)
	}
}

func TestWhole(t *testing.T) {
	dir := t.TempDir()
	memory := filepath.Join(t.TempDir(), "x.files")
	require.NoError(t, os.Mkdir(filepath.Join(dir, "tile"), 0o755))
	f := Read(memory, dir)
	assert.False(t, f.Whole(), "nothing is not a site")
	for _, name := range []string{"a", "tile/b"} {
		put(t, dir, name, name, longAgo)
		require.NoError(t, f.Note(name, "", Sum([]byte(name))))
	}
	assert.True(t, f.Whole())
	put(t, dir, "tile/c", "", longAgo)
	assert.False(t, f.Whole(), "one too many")
	require.NoError(t, os.Rename(filepath.Join(dir, "tile/c"), filepath.Join(dir, "a")))
	assert.False(t, f.Whole(), "another one")
}

// Nothing is trusted on a disk whose clock cannot be read, and nothing is kept
// without a file to keep it in.
func TestWithoutAMemory(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "a", "abc", longAgo)
	f := Read("", dir)
	_, err := f.Sum("a")
	require.NoError(t, err)
	put(t, dir, "a", "xyz", longAgo)
	got, err := f.Sum("a")
	require.NoError(t, err)
	assert.Equal(t, Sum([]byte("xyz")), got)
	assert.NoError(t, f.Save())
}
