package themes

import (
	"embed"
	"io/fs"
)

//go:embed bench
var bench embed.FS

// Bench is how the bench looks: its page templates, style and scripts, which no
// wall replaces.
func Bench() fs.FS {
	sub, err := fs.Sub(bench, "bench")
	if err != nil {
		panic(err) // the name above is no path
	}
	return sub
}
