package themes

import (
	"embed"
	"io/fs"
	"strings"
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

// FaultPicture is the id of a fault's drawing in the door's faults.html, which the
// bench shows too.
func FaultPicture(fault string) string { return "f-" + strings.ReplaceAll(fault, " ", "-") }
