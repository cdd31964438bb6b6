package run

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/photo"
)

// BroughtPhoto is what became of one photo that was brought.
type BroughtPhoto struct {
	Photo string // below tiles/photos
	Known bool   // the very same photo was there already
}

// BringPhoto puts a photo among the wall's as it comes, byte for byte: what is
// no picture, or is larger than a photo may be, is refused and leaves nothing.
// It takes no lock: photos may be brought while others are read.
func BringPhoto(dir folder.Folder, name string, from io.Reader) (BroughtPhoto, error) {
	shown := photoName(name)
	in := bufio.NewReaderSize(from, 64<<10)
	head, err := in.Peek(4096)
	if err != nil && err != io.EOF {
		return BroughtPhoto{}, err
	}
	if len(head) == 0 {
		return BroughtPhoto{}, tiles.Problem{File: shown, What: "the file is empty", Do: "send it once more"}
	}
	if err := photo.Known(head); err != nil {
		return BroughtPhoto{}, photoProblem(shown, err)
	}
	got, known, err := dir.BringPhoto(shown, func(w io.Writer) error {
		n, err := io.Copy(w, io.LimitReader(in, folder.MostPhoto+1))
		if err == nil && n > folder.MostPhoto {
			err = errTooMuch
		}
		return err
	})
	if errors.Is(err, errTooMuch) {
		err = tiles.Problem{File: shown, What: fmt.Sprintf("the file is larger than %d MB", folder.MostPhoto>>20), Do: "make it smaller"}
	}
	return BroughtPhoto{got, known}, err
}

var errTooMuch = errors.New("larger than a photo may be")

// longestName keeps a photo's name, and that of the file while it is written,
// below the 255 bytes that common disks take.
const longestName = 180

// photoName is the last part of a name as it was sent, fit to be a file's name
// on every system. A hidden one would not be seen as a photo.
func photoName(sent string) string {
	name := path.Base(strings.ReplaceAll(strings.ToValidUTF8(sent, "_"), `\`, "/"))
	name = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || strings.ContainsRune(`/<>:"|?*`, r) || unicode.Is(unicode.Bidi_Control, r) {
			return '_'
		}
		return r
	}, name)
	name = strings.TrimRight(strings.TrimLeft(name, ". "), ". ")
	ending := path.Ext(name)
	if len(ending) > 8 {
		ending = ""
	}
	stem := strings.TrimSuffix(name, ending)
	for len(stem) > longestName {
		_, size := utf8.DecodeLastRuneInString(stem)
		stem = stem[:len(stem)-size]
	}
	if folder.IsDevice(stem) || stem == "" {
		stem = "photo " + stem
	}
	return strings.TrimSpace(stem) + ending
}
