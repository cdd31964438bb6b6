package main

import (
	"errors"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// load reads the wall's files and joins them. It returns every problem it can
// find in all of them, not the first one.
func (a *app) load() (tiles.Wall, error) {
	var w tiles.Wall
	var ps problems
	settings, err := content.ReadSettings(a.folder())
	if isNoWall(err) {
		return w, err
	}
	ps.add(err)
	w.Settings = settings
	w.Glazes = gather(&ps, a.folder(), content.ReadGlazes)
	w.Tiles = gather(&ps, a.folder(), record.ReadTiles)
	w.Readings = gather(&ps, a.folder(), record.ReadReadings)
	w.Hand = gather(&ps, a.folder(), record.ReadByHand)
	if len(ps.found) == 0 {
		ps.add(content.CheckRules(w.Settings, w.Glazes).OrNil())
		// Two plans may each have given the same number: nothing goes on
		// before a person has chosen.
		ps.add(copiesOf(a.folder(), record.PlanFile).OrNil())
	}
	return w, ps.err()
}

// isNoWall says that the folder has no wall.yaml: what else it lacks does not
// matter then.
func isNoWall(err error) bool { return errors.Is(err, content.ErrNoWall) }

// gather reads one file of the wall and keeps what is wrong with it.
func gather[T any](ps *problems, dir folder.Folder, read func(folder.Folder) ([]T, error)) []T {
	all, err := read(dir)
	ps.add(err)
	return all
}

// problems gathers what is wrong over several files.
type problems struct{ found tiles.Problems }

func (ps *problems) add(err error) {
	var several tiles.Problems
	var one tiles.Problem
	switch {
	case err == nil:
	case errors.As(err, &several):
		ps.found = append(ps.found, several...)
	case errors.As(err, &one):
		ps.found = append(ps.found, one)
	default:
		ps.found = append(ps.found, tiles.Problem{File: "wall", What: err.Error()})
	}
}

// addNew adds what is not there already.
func (ps *problems) addNew(more tiles.Problems) {
	for _, p := range more {
		if !slices.Contains(ps.found, p) {
			ps.found = append(ps.found, p)
		}
	}
}

func (ps *problems) err() error { return ps.found.OrNil() }
