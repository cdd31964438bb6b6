package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/unchanged"
)

// contactSheet shows what measure cut out and used; its parts, a file a photo,
// lie in the folder beside it.
const (
	contactSheet = "build/contact.html"
	contactParts = "build/contact"
)

func (a *app) contactPart(photo string) string {
	return filepath.Join(a.wall, filepath.FromSlash(contactParts), url.PathEscape(photo)+".html")
}

// view writes a photo's part of the contact sheet.
func (m *measuring) view(name string, res measure.Result) error {
	if res.View == nil {
		return nil
	}
	p := contact.Photo{Name: name, View: *res.View, Readings: res.Readings, Notes: res.Notes, Say: m.sayTile}
	return record.WriteFile(m.app.contactPart(name), func(w io.Writer) error { return contact.WritePart(w, p) })
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
		part := m.app.contactPart(r.Photo)
		sum, err := m.files.Sum(contactParts + "/" + filepath.Base(part))
		if errors.Is(err, os.ErrNotExist) {
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
	path := filepath.Join(m.app.wall, filepath.FromSlash(contactSheet))
	err := record.WriteFile(path, func(w io.Writer) error {
		return contact.Join(io.MultiWriter(w, hash), m.wall.Name, func(w io.Writer) error {
			for _, part := range parts {
				if err := copyFrom(w, part); err != nil {
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

func copyFrom(w io.Writer, path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = io.Copy(w, f)
	return err
}
