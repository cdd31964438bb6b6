package site

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A page shows what lies in content/ and nothing else, whichever system's way of
// writing a path is tried.
func TestAPagesPicturesLieInContent(t *testing.T) {
	for _, name := range []string{"a.jpg", "kiln/1.jpg", "./a.jpg", "kiln/../a.jpg", "8 café.jpg", "..a.jpg"} {
		assert.True(t, inContent(name), name)
	}
	for _, name := range []string{"../x.jpg", `..\..\x.jpg`, `..\tiles\photos\1.jpg`, `kiln\1.jpg`, "kiln/../../x.jpg", "C:x.jpg", `C:\x.jpg`, `\\server\x.jpg`, "", ".", ".."} {
		assert.False(t, inContent(name), name)
	}
}
