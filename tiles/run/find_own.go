package run

import (
	"path/filepath"
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
)

// nameless is a photo's name that names no tile: only its label can.
const nameless = "photo"

// own reads a photo of one of the wall's tiles as measure does: as it was read
// before where nothing has changed, by the number in its name where it lies
// among the wall's photos, and by its label wherever it lies. It is false for
// what shows no tile of this wall, or several.
func own(dir folder.Folder, name string, data []byte, ask measure.Ask) ([]tiles.Reading, []string, bool) {
	ask.Photo = nameless + filepath.Ext(name)
	if photo, ok := dir.FindPhoto(name); ok {
		ask.Photo = photo
	}
	if kept := readBefore(ask, data); len(kept) > 0 {
		return kept, nil, true
	}
	var reader measure.Reader
	var res measure.Result
	err := Guarded(func() (err error) {
		res, err = reader.Read(data, ask)
		return err
	})
	if err != nil || !ofOneTile(res.Readings) {
		return nil, nil, false
	}
	return res.Readings, res.Notes, true
}

// readBefore are the readings that were made from the same photo under any
// name: somebody may have kept it elsewhere, too.
func readBefore(ask measure.Ask, data []byte) []tiles.Reading {
	by := map[string][]tiles.Reading{}
	for _, r := range ask.Wall.Readings {
		by[r.Photo] = append(by[r.Photo], r)
	}
	sum := measure.Sum(data)
	for photo, rs := range by {
		ask.Photo = photo
		if ofOneTile(rs) && rs[0].Hash == ask.Hash(sum, rs) {
			return rs
		}
	}
	return nil
}

func ofOneTile(rs []tiles.Reading) bool {
	return len(rs) > 0 && !slices.ContainsFunc(rs, func(r tiles.Reading) bool { return r.Tile != rs[0].Tile })
}

// nearestFirst are the tiles nearest to a color, the tile that the photo shows
// before all others.
func nearestFirst(shown []tiles.Tile, readings []tiles.Reading, wanted color.Lab, found Found, most int) []color.Match {
	places := placesOf(readings)
	at := slices.IndexFunc(shown, func(t tiles.Tile) bool { return t.Number == found.Shows })
	if at < 0 {
		return places.Nearest(wanted, most)
	}
	all := places.Nearest(wanted, len(shown))
	i := slices.IndexFunc(all, func(m color.Match) bool { return m.Of == at })
	its := all[i]
	all = slices.Insert(slices.Delete(all, i, i+1), 0, its)
	return all[:min(most, len(all))]
}
