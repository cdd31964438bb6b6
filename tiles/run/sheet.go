package run

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"net/url"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/unchanged"
)

// SheetFile is the contact sheet, which shows what measure cut out and used;
// its parts, a file a photo, lie in the folder beside it.
const (
	SheetFile = "build/contact.html"
	partsOf   = "build/contact/"
)

// Sheet writes the contact sheet. Without its functions none is written.
type Sheet struct {
	// Part writes a photo's part. Say says a tile's pair in words.
	Part func(w io.Writer, photo string, res measure.Result, say func(tiles.Number) string) error
	// Join writes the sheet of a wall around its parts.
	Join func(w io.Writer, wall string, parts func(io.Writer) error) error
}

// mostName keeps a part's name, and that of the file while it is written, below
// the 255 bytes that common disks take.
const mostName = 200

// partFile is a photo's part: by its name, or by the hash of a long one.
func partFile(photo string) string {
	name := url.PathEscape(photo)
	if len(name) > mostName {
		name = unchanged.Sum([]byte(photo))
	}
	return partsOf + name + ".html"
}

// part writes a photo's part of the sheet.
func (s Sheet) part(dir folder.Folder, wall tiles.Wall, name string, res measure.Result) error {
	if s.Part == nil || res.View == nil {
		return nil
	}
	say := func(n tiles.Number) string {
		t, ok := wall.Tile(n)
		if !ok {
			return ""
		}
		return wall.Say(t.Pair)
	}
	return dir.Write(partFile(name), func(w io.Writer) error { return s.Part(w, name, res, say) })
}

// join joins the parts of every photo that readings stand on, unless the sheet
// that is there was joined from the same by the same program.
func (s Sheet) join(dir folder.Folder, files *unchanged.Files, wall tiles.Wall, program string) error {
	var parts []string
	from := []string{program, wall.Name}
	seen := map[string]bool{"": true}
	for _, r := range wall.Readings {
		if seen[r.Photo] {
			continue
		}
		seen[r.Photo] = true
		part := partFile(r.Photo)
		sum, err := files.Sum(part)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		parts, from = append(parts, part), append(from, sum)
	}
	key := unchanged.Sum([]byte(strings.Join(from, "\n")))
	if s.Join == nil || len(parts) == 0 || files.Holds(SheetFile, key) {
		return nil
	}
	hash := sha256.New()
	err := dir.Write(SheetFile, func(w io.Writer) error {
		return s.Join(io.MultiWriter(w, hash), wall.Name, func(w io.Writer) error { return copyAll(w, dir, parts) })
	})
	if err != nil {
		return err
	}
	return files.Note(SheetFile, key, hex.EncodeToString(hash.Sum(nil)))
}

// copyAll copies file after file: all parts of a large wall fill the memory.
func copyAll(w io.Writer, dir folder.Folder, parts []string) error {
	for _, part := range parts {
		f, err := dir.Open(part)
		if err != nil {
			return err
		}
		_, err = io.Copy(w, f)
		f.Close()
		if err != nil {
			return err
		}
	}
	return nil
}
