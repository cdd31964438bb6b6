package main

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// keep writes what was read: the plan, then the pictures of tiles that another
// photo than before stands for, then the readings. These come last because a
// photo whose reading is kept is not looked at again: a run that is stopped
// before them is done over, and one that is stopped after them has lost nothing.
func (m *measuring) keep() error {
	readings := m.merged()
	if err := m.fire(); err != nil {
		return err
	}
	if err := m.show(readings); err != nil {
		return err
	}
	if len(m.results) > 0 || len(m.did.Gone) > 0 {
		if err := record.WriteReadings(m.app.folder(), readings); err != nil {
			return err
		}
	}
	return m.sheet(readings)
}

// show makes the pictures of the tiles that another photo now stands for.
func (m *measuring) show(readings []tiles.Reading) error {
	after := m.wall
	after.Readings = readings
	r := m.app.missingPictures(m.files, after)
	m.problems = append(m.problems, r.lost...)
	return r.unwritten
}

// merged is the readings there were, with those of every photo measured in
// this run put in their place, and those of photos that are gone left out.
func (m *measuring) merged() []tiles.Reading {
	var out []tiles.Reading
	gone, there := map[string]bool{}, map[string]bool{}
	for _, name := range m.photos {
		there[name] = true
	}
	for _, r := range m.wall.Readings {
		_, again := m.results[r.Photo]
		switch {
		case again:
		case m.all && r.Photo != "" && r.Hash != "" && !there[r.Photo]:
			gone[r.Photo] = true
		default:
			out = append(out, r)
		}
	}
	m.did.Gone = slices.SortedFunc(maps.Keys(gone), folder.ByNumber)
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
	return record.WriteTiles(m.app.folder(), m.wall.Tiles)
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
	slices.SortFunc(m.problems, func(p, q tiles.Problem) int { return folder.ByNumber(filepath.Base(p.File), filepath.Base(q.File)) })
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
