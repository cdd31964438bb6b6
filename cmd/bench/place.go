package bench

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// newPlace is a folder of that name that is not there yet, among the person's
// documents.
func newPlace(name string) string {
	home, err := os.UserHomeDir()
	if err != nil {
		return ""
	}
	if info, err := os.Stat(filepath.Join(home, "Documents")); err == nil && info.IsDir() {
		home = filepath.Join(home, "Documents")
	}
	place := filepath.Join(home, name)
	for i := 2; ; i++ {
		if _, err := os.Lstat(place); err != nil {
			return place
		}
		place = filepath.Join(home, fmt.Sprintf("%s %d", name, i))
	}
}

// typedPlace is the folder that a person typed or pasted: a file manager puts
// quotation marks round it, and ~ is one's own folder.
func typedPlace(typed string) (string, error) {
	place := strings.TrimSpace(typed)
	if len(place) > 1 && (place[0] == '"' || place[0] == '\'') && place[len(place)-1] == place[0] {
		place = place[1 : len(place)-1]
	}
	if rest, ok := strings.CutPrefix(place, "~"); ok && (rest == "" || os.IsPathSeparator(rest[0])) {
		if home, err := os.UserHomeDir(); err == nil {
			place = filepath.Join(home, rest)
		}
	}
	switch {
	case place == "":
		return "", tiles.Problem{What: "no folder is named", Do: "type where it is, as the file manager shows it"}
	case strings.ContainsRune(place, 0):
		return "", tiles.Problem{What: "this is no folder's name", Do: "type where it is, as the file manager shows it"}
	case !filepath.IsAbs(place):
		return "", tiles.Problem{What: fmt.Sprintf("%q does not say where the folder is", place), Do: "type the whole path, such as " + newPlace("glaze wall")}
	}
	return filepath.Clean(place), nil
}
