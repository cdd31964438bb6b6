package themes

import (
	"embed"
	"io/fs"
)

//go:embed door
var door embed.FS

// Door is how the studio's door looks: its page templates, style and script,
// which no wall replaces.
func Door() fs.FS {
	sub, err := fs.Sub(door, "door")
	if err != nil {
		panic(err) // the name above is no path
	}
	return sub
}
