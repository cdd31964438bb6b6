package run

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/photo"
)

// findPhotos are the photos that somebody named, below tiles/photos, or all
// that there are. None at all is an error, unless readings were made of some.
func findPhotos(dir folder.Folder, names []string, read []tiles.Reading) ([]string, error) {
	if len(names) == 0 {
		all, err := dir.ListPhotos()
		if err == nil && len(all) == 0 && !slices.ContainsFunc(read, fromPhoto) {
			err = tiles.Problem{File: folder.Photos, What: "there is no photo in it", Do: "put a photo of each tile there, named after its number like 7.jpg"}
		}
		return all, err
	}
	var out []string
	for _, name := range names {
		rel, ok := dir.FindPhoto(name)
		if !ok {
			return nil, tiles.Problem{File: visible(name), What: "there is no such photo in " + folder.Photos, Do: "copy it there; its name begins with the tile's number"}
		}
		out = append(out, rel)
	}
	return out, nil
}

// visible is a name as a person gave it, between quotation marks where nothing
// of it could be seen.
func visible(name string) string {
	if strings.TrimSpace(name) == "" {
		return strconv.Quote(name)
	}
	return name
}

// photoProblem says for a person why a photo could not be read.
func photoProblem(file string, err error) tiles.Problem {
	p := tiles.Problem{File: file}
	var refusal photo.Refusal
	var ps tiles.Problems
	var pe *os.PathError
	switch {
	case errors.As(err, &p):
	case errors.As(err, &ps):
		p = ps[0]
	case errors.As(err, &refusal):
		p.What, p.Do = refusal.What, refusal.Do
	case errors.As(err, &pe):
		p.What = pe.Err.Error() // the path is said already
	default:
		p.What = err.Error()
	}
	return p
}

// Guarded makes a fault of the program in one photo that photo's refusal, so
// that the others are read.
func Guarded(read func() error) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = photo.Refusal{
				What: fmt.Sprintf("twodip itself failed on it (%v)", fault),
				Do:   "measure the others, and send this photo to whoever looks after the program",
			}
		}
	}()
	return read()
}
