package folder

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func put(t *testing.T, dir, name, text string) {
	t.Helper()
	path := filepath.Join(dir, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

func get(t *testing.T, dir, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	require.NoError(t, err)
	return string(data)
}

// What a file of a wall may not be, and what is said of it.
func TestWhatIsNotRead(t *testing.T) {
	dir := t.TempDir()
	f := At(dir)
	outside := filepath.Join(t.TempDir(), "secret.md")
	require.NoError(t, os.WriteFile(outside, []byte("secret"), 0o600))
	put(t, dir, "content/page.md", "12345")
	put(t, dir, "tiles/log.csv", "private")
	require.NoError(t, os.Symlink(outside, filepath.Join(dir, "content", "out.md")))
	require.NoError(t, os.Symlink("../tiles/log.csv", filepath.Join(dir, "content", "log.md")))
	require.NoError(t, os.Symlink("../tiles", filepath.Join(dir, "content", "all")))
	for name, want := range map[string]string{
		"content/out.md":      "is a link to a place outside the wall's folder; put the file itself here",
		"content/log.md":      "is a link; put the file itself here",
		"content/all/log.csv": "is a link; put the file itself here",
		"content":             "is a folder where a file should be; move it away",
		"content/page.md/x":   "a file stands where a folder should be; move it away",
		"content/none.md":     "is not there",
		"../secret.md":        "is a link to a place outside the wall's folder; put the file itself here",
	} {
		_, err := f.Read(name, 10)
		assert.EqualError(t, err, name+": "+want)
		_, err = f.Open(name)
		assert.EqualError(t, err, name+": "+want)
		assert.False(t, f.Has(name), name)
	}
	_, err := f.Read("content/none.md", 10)
	assert.ErrorIs(t, err, fs.ErrNotExist)
	_, err = f.Read("content/page.md", 4)
	assert.EqualError(t, err, "content/page.md: is larger than 0 MB; check that it is the file you mean")
	data, err := f.Read("content/page.md", 5)
	assert.NoError(t, err)
	assert.Equal(t, "12345", string(data))
}

func TestAFileIsWholeOrUntouched(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "a.txt", "before")
	failed := errors.New("half way")
	err := WriteFile(filepath.Join(dir, "a.txt"), func(w io.Writer) error {
		io.WriteString(w, "half")
		return failed
	})
	assert.ErrorContains(t, err, "half way")
	assert.Equal(t, "before", get(t, dir, "a.txt"))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "no temporary file is left")
}

// A link is not replaced by a file that its owner would not find.
func TestAFileIsNotWrittenOverALink(t *testing.T) {
	dir, elsewhere := t.TempDir(), filepath.Join(t.TempDir(), "log.csv")
	require.NoError(t, os.WriteFile(elsewhere, []byte("shared"), 0o644))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "tiles"), 0o755))
	require.NoError(t, os.Symlink(elsewhere, filepath.Join(dir, "tiles", "log.csv")))
	assert.ErrorContains(t, At(dir).WriteBytes("tiles/log.csv", []byte("new")), "is a link to a place outside the wall's folder; put the file itself here")
	assert.Equal(t, "shared", get(t, dir, "tiles/log.csv"))
	assert.ErrorContains(t, At(dir).WriteBytes("../out.txt", nil), "out.txt")
	assert.NoFileExists(t, filepath.Join(filepath.Dir(dir), "out.txt"))
}

func TestASecondCommandIsToldSo(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "tiles/"+TempPrefix+"123", "left by a crash")
	release, err := At(dir).Lock()
	require.NoError(t, err)
	assert.NoFileExists(t, filepath.Join(dir, "tiles", TempPrefix+"123"))
	_, err = At(dir).Lock()
	assert.ErrorContains(t, err, "another twodip command is at work on this wall")
	release()
	release()
	again, err := At(dir).Lock()
	require.NoError(t, err)
	again()
	_, err = At(filepath.Join(dir, "nowhere")).Lock()
	assert.ErrorContains(t, err, "is not there")
}

// The photos of a wall, in its folders too, without what systems leave there.
func TestPhotosAreListedOneWay(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"10.jpg", "9 back.heic", "spring/2.jpg", "Thumbs.db", "spring/desktop.ini", ".hidden.jpg", ".trash/1.jpg", "board.png"} {
		put(t, dir, Photos+"/"+name, "x")
	}
	names, err := At(dir).ListPhotos()
	assert.NoError(t, err)
	assert.Equal(t, []string{"board.png", "spring/2.jpg", "9 back.heic", "10.jpg"}, names)
	names, err = At(t.TempDir()).ListPhotos()
	assert.NoError(t, err)
	assert.Empty(t, names)
}

func TestAPhotoIsReadFromItsFolder(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, Photos+"/1.jpg", "one")
	put(t, dir, "wall.yaml", "private")
	require.NoError(t, os.Symlink("1.jpg", filepath.Join(dir, Photos, "3.jpg")))
	require.NoError(t, os.Symlink("../../wall.yaml", filepath.Join(dir, Photos, "4.jpg")))
	data, err := At(dir).ReadPhoto("3.jpg")
	assert.NoError(t, err)
	assert.Equal(t, "one", string(data), "a link that stays among the photos")
	for name, want := range map[string]string{
		"4.jpg":                  "tiles/photos/4.jpg: it is a link to a place outside tiles/photos; put the photo itself there",
		"../../wall.yaml":        "tiles/photos/../../wall.yaml: it is a link to a place outside tiles/photos; put the photo itself there",
		"5.jpg":                  "tiles/photos/5.jpg: is not there",
		"7 gr\xfcn.jpg":          "tiles/photos/7 gr�n.jpg: the name is not in UTF-8, so no table can hold it; give the photo another name",
		"../photos":              "tiles/photos/../photos: it is a link to a place outside tiles/photos; put the photo itself there",
		strings.Repeat("x", 300): "tiles/photos/" + strings.Repeat("x", 300) + ": the name is too long for this disk; shorten it, or the names of the folders it lies in",
	} {
		_, err := At(dir).ReadPhoto(name)
		assert.EqualError(t, err, want)
	}
}

func TestPathsAsTheyAreTyped(t *testing.T) {
	for path, want := range map[string]string{
		"my-wall":     "my-wall",
		"wände/klein": "wände/klein",
		"my wall":     `"my wall"`,
		"Mo's wall":   `"Mo's wall"`,
		"a;b":         `"a;b"`,
		"a$HOME":      `'a$HOME'`,
		"a`b`":        "'a`b`'",
		"it's $5":     `'it'\''s $5'`,
		"":            `""`,
	} {
		assert.Equal(t, want, Typed(path))
	}
}
