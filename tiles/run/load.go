package run

import (
	"errors"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Load reads the wall's files, joins them, and holds them against each other.
// The error has every problem that can be found in all of them, not the first
// one.
func Load(dir folder.Folder) (tiles.Wall, error) {
	w, err := loadFiles(dir)
	if err == nil {
		err = held(dir, w, func(p tiles.Pair) tiles.Pair { return p })
	}
	return w, err
}

// loadFiles reads the wall's files and joins them, with the codes that glazes
// have now where the list says what they had before.
func loadFiles(dir folder.Folder) (tiles.Wall, error) {
	var w tiles.Wall
	var ps Problems
	settings, err := content.ReadSettings(dir)
	if IsNoWall(err) {
		return w, err
	}
	ps.Add(err)
	w.Settings = settings
	w.Glazes = gather(&ps, dir, content.ReadGlazes)
	if len(w.Glazes) > 0 { // else every code would be said to be unknown
		ps.Add(content.ReadBuckets(dir, w.Glazes))
	}
	w.Tiles = gather(&ps, dir, record.ReadTiles)
	w.Readings = gather(&ps, dir, record.ReadReadings)
	w.Hand = gather(&ps, dir, record.ReadByHand)
	if len(ps.Found) == 0 {
		ps.Add(content.CheckRules(w.Settings, w.Glazes).OrNil())
		// Two plans may each have given the same number: nothing goes on
		// before a person has chosen.
		ps.Add(copyProblems(dir.Copies(record.PlanFile)).OrNil())
		w.Tiles = renamedTiles(w.Glazes, w.Tiles)
		for i, r := range w.Readings {
			w.Readings[i].Carried = tiles.Renamed(w.Glazes, r.Carried)
		}
	}
	return w, ps.OrNil()
}

// patches reads the file of the reference's patches, where wall.yaml names one.
func patches(dir folder.Folder, s tiles.Settings) ([]color.Patch, error) {
	if s.Photo.Chart == "" {
		return nil, nil
	}
	return record.ReadPatches(dir, s.Photo.Chart)
}

// IsNoWall says that the folder has no wall.yaml: what else it lacks does not
// matter then.
func IsNoWall(err error) bool { return errors.Is(err, content.ErrNoWall) }

// gather reads one file of the wall and keeps what is wrong with it.
func gather[T any](ps *Problems, dir folder.Folder, read func(folder.Folder) ([]T, error)) []T {
	all, err := read(dir)
	ps.Add(err)
	return all
}

// Problems gathers what is wrong over several files.
type Problems struct{ Found tiles.Problems }

// Add adds every problem of an error.
func (ps *Problems) Add(err error) {
	var several tiles.Problems
	var one tiles.Problem
	switch {
	case err == nil:
	case errors.As(err, &several):
		ps.Found = append(ps.Found, several...)
	case errors.As(err, &one):
		ps.Found = append(ps.Found, one)
	default:
		ps.Found = append(ps.Found, tiles.Problem{File: "wall", What: err.Error()})
	}
}

// addNew adds what is not there already.
func (ps *Problems) addNew(more tiles.Problems) {
	for _, p := range more {
		if !slices.Contains(ps.Found, p) {
			ps.Found = append(ps.Found, p)
		}
	}
}

// OrNil is all of them as an error, or nil.
func (ps *Problems) OrNil() error { return ps.Found.OrNil() }
