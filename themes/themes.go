// Package themes holds how the site looks and behaves: the page templates, the
// style, the browser's scripts and the words people search with, and the few
// lines that embed them.
//
// A wall's own themes/ folder may replace any of these files, one by one, by a
// file of the same name. Templates make no decision: what a page says is
// decided in build/site, and a template only lays it out (range, with, names).
package themes

import (
	"embed"
	"errors"
	"io/fs"
)

//go:embed *.html words.csv style script
var built embed.FS

// Built is the built-in theme.
func Built() fs.FS { return built }

// Over lays a wall's own theme over the built-in one: a file that the wall has
// replaces the built-in file of the same name. own may be nil.
func Over(own fs.FS) fs.FS {
	if own == nil {
		return built
	}
	return over{own}
}

// Names lists the files a wall may replace, in order of name.
func Names() []string {
	var names []string
	// The embedded files cannot fail to be walked.
	_ = fs.WalkDir(built, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			names = append(names, name)
		}
		return err
	})
	return names
}

type over struct{ own fs.FS }

// Open opens the wall's own file, or else the built-in one.
func (o over) Open(name string) (fs.File, error) {
	f, err := o.own.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return built.Open(name)
	}
	return f, err
}
