package site

import (
	"path"
	"strings"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"

	"github.com/twodip/twodip/tiles"
)

var leaner = func() *minify.M {
	m := minify.New()
	m.AddFunc(".css", css.Minify)
	m.AddFunc(".js", js.Minify)
	return m
}()

// lean leaves out of a script or style what is there for people who read the
// theme: a phone on a slow line loads a third less. A file of the wall's own
// that cannot be read is said.
func lean(name string, src []byte) ([]byte, error) {
	out, err := leaner.Bytes(path.Ext(name), src)
	if err != nil {
		what, _, _ := strings.Cut(err.Error(), "\n")
		return nil, tiles.Problem{File: "themes/" + name, What: "it cannot be read: " + what,
			Do: "mend it, or delete the file to have the built-in one back"}
	}
	return out, nil
}
