package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"net/url"
	"strings"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/unchanged"
)

// contactSheet shows what measure cut out and used; its parts, a file a photo,
// lie in the folder beside it.
const (
	contactSheet = "build/contact.html"
	contactParts = "build/contact"
)

// contactPart is a photo's part: its name, or the hash of a long one.
func contactPart(photo string) string {
	name := url.PathEscape(photo)
	if len(name) > mostName {
		name = unchanged.Sum([]byte(photo))
	}
	return contactParts + "/" + name + ".html"
}

// mostName keeps the part's name, the name while it is written and ".html"
// below the 255 bytes that common disks take.
const mostName = 200

// view writes a photo's part of the contact sheet.
func (m *measuring) view(name string, res measure.Result) error {
	if res.View == nil {
		return nil
	}
	p := contact.Photo{Name: name, View: *res.View, Readings: res.Readings, Notes: res.Notes, Say: m.sayTile}
	return m.app.folder().Write(contactPart(name), func(w io.Writer) error { return contact.WritePart(w, p) })
}

func (m *measuring) sayTile(n tiles.Number) string {
	t, ok := m.wall.Tile(n)
	if !ok {
		return ""
	}
	return m.wall.Say(t.Pair)
}

// sheet joins the parts of every photo that readings stand on, unless the
// sheet that is there was joined from the same.
func (m *measuring) sheet(readings []tiles.Reading) error {
	var parts []string
	from := []string{m.app.version(), m.wall.Name}
	seen := map[string]bool{"": true}
	for _, r := range readings {
		if seen[r.Photo] {
			continue
		}
		seen[r.Photo] = true
		part := contactPart(r.Photo)
		sum, err := m.files.Sum(part)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		parts, from = append(parts, part), append(from, sum)
	}
	key := unchanged.Sum([]byte(strings.Join(from, "\n")))
	if len(parts) == 0 || m.files.Holds(contactSheet, key) {
		return nil
	}
	return m.join(key, parts)
}

// join writes the sheet, part by part: all parts of a large wall fill the
// memory.
func (m *measuring) join(key string, parts []string) error {
	hash := sha256.New()
	err := m.app.folder().Write(contactSheet, func(w io.Writer) error {
		return contact.Join(io.MultiWriter(w, hash), m.wall.Name, func(w io.Writer) error {
			for _, part := range parts {
				if err := copyFrom(w, m.app.folder(), part); err != nil {
					return err
				}
			}
			return nil
		})
	})
	if err != nil {
		return err
	}
	return m.files.Note(contactSheet, key, hex.EncodeToString(hash.Sum(nil)))
}

func copyFrom(w io.Writer, dir folder.Folder, part string) error {
	f, err := dir.Open(part)
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = io.Copy(w, f)
	return err
}
