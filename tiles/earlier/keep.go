package earlier

import (
	"errors"
	"io/fs"
	"slices"
	"time"

	"github.com/twodip/twodip/tiles/folder"
)

// Keep keeps every file of a person that is not as its newest version is.
// A command calls it under the wall's lock, before it changes anything and
// again when it has: so the version before is there, with what a person did to
// it by hand since, and so is the one that the command left. Where a version
// cannot be kept nothing must be changed; the error is tiles.Problems. With
// names, only those files are kept.
func Keep(dir folder.Folder, at time.Time, only ...string) error {
	all, err := List(dir)
	if err != nil {
		return err
	}
	for _, file := range Files {
		if len(only) > 0 && !slices.Contains(only, file) {
			continue
		}
		if err := keepOne(dir, file, Of(all, file), at); err != nil {
			return err
		}
	}
	return nil
}

func keepOne(dir folder.Folder, file string, before []Version, at time.Time) error {
	data, err := dir.Read(file, mostBytes)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	sum, turn := sumOf(data), 1
	if len(before) > 0 {
		if before[0].Sum == sum {
			return nil
		}
		turn = before[0].Turn + 1
	}
	name := named(file, turn, at, sum)
	if err := dir.WriteBytes(name, data); err != nil {
		return err
	}
	return prune(dir, before)
}

// How many versions of a file are kept: the newest ones all, and of those
// before them the last of each day.
const (
	newest  = 12
	fromDay = 40
)

// prune removes the versions that newer ones of the same day stand for. Before
// lists the versions there were, the newest first.
func prune(dir folder.Folder, before []Version) error {
	kept, day := 0, ""
	for i, v := range before {
		this := v.Kept.Format(time.DateOnly)
		if i < newest || (this != day && kept < fromDay) {
			kept, day = kept+1, this
			continue
		}
		if err := dir.Remove(v.Saved); err != nil {
			return err
		}
	}
	return nil
}

// Restore puts a version in the place of its file. What the file holds now is
// kept first, so that restoring can be undone like any other change. Other files
// are left alone: they may be what is wrong.
func Restore(dir folder.Folder, v Version, at time.Time) error {
	data, err := v.Read(dir)
	if err != nil {
		return err
	}
	if err := Keep(dir, at, v.File); err != nil {
		return err
	}
	if err := dir.WriteBytes(v.File, data); err != nil {
		return err
	}
	return Keep(dir, at, v.File)
}
