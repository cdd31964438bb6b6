package site

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLeanKeepsWhatWorksAndSaysWhatIsBroken(t *testing.T) {
	script, err := lean("script/a.js", []byte("// for readers\nconst wall = { tile: 7 };\n"))
	require.NoError(t, err)
	assert.Equal(t, "const wall={tile:7}", string(script), "a name that other files use stays")
	style, err := lean("style/a.css", []byte("/* for readers */\n.a { color : #303030; }\n"))
	require.NoError(t, err)
	assert.Equal(t, ".a{color:#303030}", string(style))
	_, err = lean("script/find.js", []byte("const = 3;\n"))
	require.ErrorContains(t, err, "themes/script/find.js: it cannot be read: ")
}
