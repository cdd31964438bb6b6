package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"golang.org/x/text/unicode/norm"
)

// What Windows and macOS do with names: devices are no names, case, stops and
// spaces at the end tell nothing apart, and letters come taken apart.
func TestSlugsAreNamesOnEverySystem(t *testing.T) {
	for file, want := range map[string]string{
		"content/con.md": "page-con", "content/NUL.md": "page-nul", "content/Com1.MD": "page-com1", "content/lpt9 .md": "page-lpt9",
		"content/aux...md": "page-aux", "content/console.md": "console", "content/con kiln.md": "con-kiln", "content/.md": "page",
		"content/Kiln. .md": "kiln", "content/KILN.md": "kiln",
	} {
		assert.Equal(t, want, slug(file), file)
	}
	assert.Equal(t, slug("content/"+norm.NFC.String("Glaçure à café.md")), slug("content/"+norm.NFD.String("Glaçure à café.md")))
}
