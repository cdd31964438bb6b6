package main

import (
	"errors"
	"io"
	"net/url"
	"os"
	"path/filepath"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
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

// sheet joins the parts of every photo that readings stand on.
func (m *measuring) sheet(readings []tiles.Reading) error {
	var parts [][]byte
	seen := map[string]bool{"": true}
	for _, r := range readings {
		if seen[r.Photo] {
			continue
		}
		seen[r.Photo] = true
		data, err := os.ReadFile(m.app.contactPart(r.Photo))
		if errors.Is(err, os.ErrNotExist) {
			continue
		}
		if err != nil {
			return err
		}
		parts = append(parts, data)
	}
	if len(parts) == 0 {
		return nil
	}
	path := filepath.Join(m.app.wall, filepath.FromSlash(contactSheet))
	return record.WriteFile(path, func(w io.Writer) error { return contact.Join(w, m.wall.Name, parts) })
}
