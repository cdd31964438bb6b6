package run

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"path"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/unchanged"
)

// SheetFile is the contact sheet, which shows what measure cut out and used;
// its further pages lie beside it, its parts, two files a photo, in the folder
// of its name.
const (
	SheetFile = "build/contact.html"
	partsOf   = "build/contact/"
)

// photosAPage is how many photos a page of the sheet shows: a browser opens it
// at once, however large the wall.
const photosAPage = 48

// SheetPage is one page of a wall's sheet.
type SheetPage struct {
	Wall        string
	Page, Pages int      // 1 and up
	Doubted     []string // on the first page: the photos that may be of another tile, a sentence each
}

// SheetName is the file of a page, 1 and up.
func SheetName(page int) string {
	if page == 1 {
		return SheetFile
	}
	return fmt.Sprintf("build/contact-%d.html", page)
}

// Sheet writes the contact sheet. Without its functions none is written.
type Sheet struct {
	// Part writes a photo's part, whose picture stands at that address. Say
	// says a tile's pair in words.
	Part func(w io.Writer, photo, picture string, res measure.Result, say func(tiles.Number) string) error
	// Join writes a page of the sheet around its parts.
	Join func(w io.Writer, page SheetPage, parts func(io.Writer) error) error
}

// mostName keeps a part's name, and that of the file while it is written, below
// the 255 bytes that common disks take.
const mostName = 200

// partFile is a photo's part, and with another ending its picture: by its name,
// or by the hash of a long one.
func partFile(photo, ending string) string {
	name := url.PathEscape(photo)
	if len(name) > mostName {
		name = unchanged.Sum([]byte(photo))
	}
	return partsOf + name + ending
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
	picture := partFile(name, ".jpg")
	if err := dir.WriteBytes(picture, res.View.JPEG); err != nil {
		return err
	}
	address := path.Base(partsOf) + "/" + url.PathEscape(path.Base(picture))
	return dir.Write(partFile(name, ".html"), func(w io.Writer) error { return s.Part(w, name, address, res, say) })
}

// join joins the parts of every photo that readings stand on into pages.
func (s Sheet) join(dir folder.Folder, files *unchanged.Files, wall tiles.Wall, program string) error {
	if s.Join == nil {
		return nil
	}
	var parts, sums []string
	seen := map[string]bool{"": true}
	for _, r := range wall.Readings {
		if seen[r.Photo] {
			continue
		}
		seen[r.Photo] = true
		part := partFile(r.Photo, ".html")
		sum, err := files.Sum(part)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		parts, sums = append(parts, part), append(sums, sum)
	}
	page := SheetPage{Wall: wall.Name, Pages: (len(parts) + photosAPage - 1) / photosAPage}
	for from := 0; from < len(parts); from += photosAPage {
		page.Page++
		page.Doubted = nil
		if page.Page == 1 {
			page.Doubted = sayMistaken(wall, func(string) bool { return true })
		}
		to := min(from+photosAPage, len(parts))
		if err := s.joinPage(dir, files, page, parts[from:to], append([]string{program}, sums[from:to]...)); err != nil {
			return err
		}
	}
	return dropPages(dir, max(page.Pages, 1)+1)
}

// joinPage writes one page, unless the one that is there was joined from the
// same by the same program.
func (s Sheet) joinPage(dir folder.Folder, files *unchanged.Files, page SheetPage, parts, from []string) error {
	name := SheetName(page.Page)
	key := unchanged.Sum([]byte(fmt.Sprintln(page, from)))
	if files.Holds(name, key) {
		return nil
	}
	hash := sha256.New()
	err := dir.Write(name, func(w io.Writer) error {
		return s.Join(io.MultiWriter(w, hash), page, func(w io.Writer) error { return copyAll(w, dir, parts) })
	})
	if err != nil {
		return err
	}
	return files.Note(name, key, hex.EncodeToString(hash.Sum(nil)))
}

// dropPages removes the pages that a larger sheet had.
func dropPages(dir folder.Folder, from int) error {
	for ; dir.Has(SheetName(from)); from++ {
		if err := dir.Remove(SheetName(from)); err != nil {
			return err
		}
	}
	return nil
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

// PartOf names the files that show what was found in a photo: its part of the
// contact sheet, and the part's picture. They need not be there.
func PartOf(photo string) (part, picture string) {
	return partFile(photo, ".html"), partFile(photo, ".jpg")
}
