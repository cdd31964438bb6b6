package main

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
)

// takeTheme copies files of the built-in theme into the wall's themes/, where
// a person may change them. None is written over.
func (a *app) takeTheme(names []string) error {
	for _, name := range names {
		if !slices.Contains(themes.Names(), name) {
			return usageError{fmt.Errorf("the theme has no file %q; it has %s", name, strings.Join(themes.Names(), ", "))}
		}
	}
	release, err := a.folder().Lock()
	if err != nil {
		return err
	}
	defer release()
	for _, name := range names {
		if err := a.takeThemeFile(name); err != nil {
			return err
		}
		a.step("themes/%s", name)
	}
	return a.done(names, many(len(names), "file", "files")+" to change", "twodip build")
}

func (a *app) takeThemeFile(name string) error {
	if _, err := a.folder().Info("themes/" + name); !errors.Is(err, fs.ErrNotExist) {
		return tiles.Problem{File: "themes/" + name, What: "is there already", Do: "move it away first to have the built-in one again"}
	}
	src, err := fs.ReadFile(themes.Built(), name)
	if err != nil {
		return err
	}
	return a.folder().WriteBytes("themes/"+name, src)
}
