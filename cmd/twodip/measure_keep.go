package main

import (
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
)

// winners is the photo that each tile's color stands on.
func winners(rs []tiles.Reading) map[tiles.Number]string {
	out := map[tiles.Number]string{}
	for _, r := range rs {
		if _, ok := out[r.Tile]; ok {
			continue
		}
		if best, ok := tiles.ColorOf(rs, r.Tile); ok {
			out[r.Tile] = best.Photo
		}
	}
	return out
}

// keep writes what was read: the plan, then the pictures of tiles that another
// photo than before stands for, then the readings. These come last because a
// photo whose reading is kept is not looked at again: a run that is stopped
// before them is done over, and one that is stopped after them has lost nothing.
func (m *measuring) keep(before map[tiles.Number]string) error {
	readings := m.merged()
	if err := m.fire(); err != nil {
		return err
	}
	m.show(before, winners(readings))
	if m.unkept != nil {
		return m.unkept
	}
	if len(m.results) > 0 || len(m.did.Gone) > 0 {
		if err := record.WriteReadings(m.app.wall, readings); err != nil {
			return err
		}
	}
	return m.sheet(readings)
}

// show makes the pictures of the tiles that another photo now stands for.
func (m *measuring) show(before, after map[tiles.Number]string) {
	for n, from := range after {
		_, measuredNow := m.results[from]
		written, wrote := m.pictured[n]
		if wrote && written != from || !wrote && (measuredNow || before[n] != from) {
			m.remake(n, from)
		}
	}
}

// merged is the readings there were, with those of every photo measured in
// this run put in their place, and those of photos that are gone left out.
func (m *measuring) merged() []tiles.Reading {
	var out []tiles.Reading
	gone := map[string]bool{}
	for _, r := range m.wall.Readings {
		_, again := m.results[r.Photo]
		switch {
		case again:
		case m.all && r.Photo != "" && r.Hash != "" && !slices.Contains(m.photos, r.Photo):
			gone[r.Photo] = true
		default:
			out = append(out, r)
		}
	}
	m.did.Gone = slices.SortedFunc(maps.Keys(gone), inNumberOrder)
	for _, name := range m.photos {
		out = append(out, m.results[name].Readings...)
	}
	slices.SortStableFunc(out, func(a, b tiles.Reading) int { return int(a.Tile - b.Tile) })
	return out
}

// fire sets the planned tiles that were read to fired.
func (m *measuring) fire() error {
	read := map[tiles.Number]bool{}
	for _, res := range m.results {
		for _, r := range res.Readings {
			read[r.Tile] = true
		}
	}
	for i, t := range m.wall.Tiles {
		if t.Status == tiles.Planned && read[t.Number] {
			m.wall.Tiles[i].Status = tiles.Fired
			m.did.Fired++
		}
	}
	if m.did.Fired == 0 {
		return nil
	}
	return record.WriteTiles(m.app.wall, m.wall.Tiles)
}

// remake makes a tile's pictures from the photo that now stands for it. A
// photo that cannot be read any more leaves the pictures as they are.
func (m *measuring) remake(n tiles.Number, from string) {
	_, err := m.app.remakePictures(m.wall, from, n)
	var unwritten tiles.Problems
	switch {
	case err == nil || from == "":
	case errors.As(err, &unwritten):
		m.unkept = err
	default:
		m.refused(from, err)
	}
}

// remakePictures makes the pictures of one tile, or of all that the photo
// shows where n is 0, and returns how many were written. Build calls it for
// tiles whose pictures are missing.
func (a *app) remakePictures(wall tiles.Wall, name string, n tiles.Number) (int, error) {
	data, err := a.readPhoto(name)
	if err != nil {
		return 0, err
	}
	patches, err := a.patches(wall.Settings)
	if err != nil {
		return 0, err
	}
	pictures, err := measure.Pictures(data, measure.Ask{Wall: wall, Photo: name, Patches: patches})
	if err != nil {
		return 0, err
	}
	wrote := 0
	for _, p := range pictures {
		if n != 0 && p.Tile != n {
			continue
		}
		if err := a.writePicture(p); err != nil {
			return wrote, err
		}
		wrote++
	}
	return wrote, nil
}

// missingPictures remakes the pictures of every tile that has a reading and
// lacks one of its pictures. What cannot be remade comes back as problems.
func (a *app) missingPictures(wall tiles.Wall) (made int, err error) {
	lacking := map[string]tiles.Number{}
	for n, from := range winners(wall.Readings) {
		if from != "" && !a.hasPictures(n) {
			lacking[from] = n
		}
	}
	var ps problems
	for _, from := range slices.SortedFunc(maps.Keys(lacking), inNumberOrder) {
		wrote, err := a.remakePictures(wall, from, 0)
		if wrote > 0 {
			made++
		}
		if err != nil {
			ps.add(tiles.Problem{File: photosFolder + "/" + from, What: plainError(err)})
		}
	}
	return made, ps.err()
}

func (a *app) hasPictures(n tiles.Number) bool {
	for _, width := range measure.Widths {
		path := filepath.Join(a.wall, filepath.FromSlash(measure.PicturePath(n, width)))
		if _, err := os.Stat(path); err != nil {
			return false
		}
	}
	return true
}

// say says what was done, with every photo that could not be read by name.
func (m *measuring) say() error {
	a := m.app
	m.sum()
	for _, gone := range m.did.Gone {
		a.step("%s is gone: its readings were taken out", gone)
	}
	if n := m.did.Outdated; n > 0 {
		a.step("%s read again: this version of twodip measures in another way, so colors and doubts may have moved", many(n, "photo", "photos"))
	}
	for _, w := range m.did.Warnings {
		a.hint("%s", w)
	}
	slices.SortFunc(m.problems, func(p, q tiles.Problem) int { return inNumberOrder(filepath.Base(p.File), filepath.Base(q.File)) })
	for _, p := range m.problems {
		m.did.Problems = append(m.did.Problems, p.Error())
	}
	if m.did.Measured > 0 {
		a.step("%-20s what was cut out and used: look before you believe", contactSheet)
	}
	summary := fmt.Sprintf("%s measured, %d unchanged, %s fired", many(m.did.Measured, "photo", "photos"), m.did.Unchanged, many(m.did.Fired, "tile newly", "tiles newly"))
	if err := a.done(m.did, summary, "twodip build"); err != nil {
		return err
	}
	if len(m.problems) > 0 {
		return m.problems
	}
	return nil
}
