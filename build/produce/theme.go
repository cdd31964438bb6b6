package produce

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// TakeTheme copies files of the built-in theme into the wall's themes/, where a
// person may change them. None is written over.
func TakeTheme(dir folder.Folder, names []string) error {
	for _, name := range names {
		if !slices.Contains(themes.Names(), name) {
			return run.ErrNotAsked(fmt.Sprintf("the theme has no file %q; it has %s", name, strings.Join(themes.Names(), ", ")))
		}
	}
	release, err := dir.Lock()
	if err != nil {
		return err
	}
	defer release()
	for _, name := range names {
		to := "themes/" + name
		if _, err := dir.Info(to); !errors.Is(err, fs.ErrNotExist) {
			return tiles.Problem{File: to, What: "is there already", Do: "move it away first to have the built-in one again"}
		}
		src, err := fs.ReadFile(themes.Built(), name)
		if err != nil {
			return err
		}
		if err := dir.WriteBytes(to, src); err != nil {
			return err
		}
	}
	return nil
}
