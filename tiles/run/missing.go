package run

import (
	"fmt"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/photo"
)

// A reading cannot be made again once its photo is gone, and photos go without
// anybody having meant it: moved, renamed, left in a cloud. So a reading stays,
// marked, until a person asks to have it taken out.

// bytesOf is as much of a photo's sum as its readings keep.
func bytesOf(sum string) string { return sum[:16] }

// fromPhoto says that a reading was made here from a photo, and not typed in.
func fromPhoto(r tiles.Reading) bool { return r.Photo != "" && r.Hash != "" }

// away says whether a reading's photo is missing. A run over a few photos says
// so of none that it was not asked about.
func (k *keeping) away(r tiles.Reading) bool {
	switch {
	case !fromPhoto(r) || k.here[r.Photo]:
		return false
	case k.all:
		return true
	}
	return r.Away
}

// settleMissing notes which photos are missing, and asks for the table to be
// written where it says otherwise.
func (k *keeping) settleMissing() {
	missing := map[string]bool{}
	renamed := k.renamed()
	told := map[string]bool{}
	for i, r := range k.wall.Readings {
		away := k.away(r)
		k.dirty = k.dirty || away != r.Away
		now := renamed[i]
		if now != "" && !told[r.Photo] {
			told[r.Photo] = true
			k.did.Renamed = append(k.did.Renamed, r.Photo+" is "+now+" now")
		}
		if away && k.all && (now == "" || !k.reads(now, r)) {
			missing[r.Photo] = true
			k.did.Kept++
		}
	}
	k.did.Missing = slices.SortedFunc(maps.Keys(missing), folder.ByNumber)
	switch {
	case len(k.gone) > 0:
		k.did.Gone, k.dirty = k.gone, true
	case k.wish.Forget && len(missing) > 0:
		k.did.Gone, k.did.Missing, k.did.Kept, k.dirty = k.did.Missing, nil, 0, true
	}
}

// forgettable makes sure that the photos whose readings are to be taken out are
// photos that were read and are not here, and gives them the names they were
// read under.
func forgettable(dir folder.Folder, names []string, read []tiles.Reading) ([]string, error) {
	var out []string
	for _, name := range names {
		photo := strings.TrimPrefix(path.Clean(filepath.ToSlash(name)), folder.Photos+"/")
		if _, here := dir.FindPhoto(name); here {
			return nil, tiles.Problem{File: folder.Photos + "/" + photo, What: "is here, so its readings stay", Do: "move the photo out of the wall first, or leave --forget-missing out to read it again", Page: "move the photo out of the wall first"}
		}
		if !slices.ContainsFunc(read, func(r tiles.Reading) bool { return fromPhoto(r) && r.Photo == photo }) {
			return nil, tiles.Problem{File: folder.Photos + "/" + photo, What: "no reading is of a photo of that name", Do: "twodip check names the photos that are not here", Page: "look at its name again"}
		}
		out = append(out, photo)
	}
	return out, nil
}

// renamed finds, for readings of photos that are missing, the photo read in
// this run that has the same bytes, by the reading's place in the table.
func (k *keeping) renamed() map[int]string {
	fresh := map[string]string{} // by the photo's bytes
	for name := range k.results {
		if len(k.before[name]) == 0 {
			fresh[k.bytes[name]] = name
		}
	}
	out := map[int]string{}
	if len(fresh) == 0 || !k.all {
		return out
	}
	for i, r := range k.wall.Readings {
		if name := fresh[r.Bytes]; name != "" && r.Bytes != "" && k.away(r) {
			out[i] = name
		}
	}
	return out
}

// reads says that a photo gave a reading in this run that may stand in another's
// place: of the same zone of the same tile, and not instead of one whose outline
// was drawn by hand for the old name.
func (k *keeping) reads(photo string, old tiles.Reading) bool {
	return slices.ContainsFunc(k.results[photo].Readings, func(r tiles.Reading) bool {
		return r.Tile == old.Tile && r.Zone == old.Zone && (old.Found != measure.FoundByHand || r.Found == old.Found)
	})
}

// SayMissing says in one line that readings stand on photos that are not here.
func SayMissing(dir folder.Folder, photos []string, readings int) string {
	said := fmt.Sprintf("%s kept of %s not here (%s)", english.Count(readings, "reading is", "readings are"),
		english.Count(len(photos), "photo that is", "photos that are"), english.AndOf(english.First(4, photos)))
	if n := inCloud(dir, photos); n > 0 {
		said += fmt.Sprintf("; %s left in iCloud: download from there", english.Count(n, "was", "were"))
	}
	return said + "; put the photos back, or take the readings out with twodip measure --forget-missing, and a photo's name for that one alone"
}

// inCloud counts photos of which only iCloud's placeholder is here.
func inCloud(dir folder.Folder, photos []string) (count int) {
	for _, name := range photos {
		if dir.Has(path.Join(folder.Photos, path.Dir(name), "."+path.Base(name)+".icloud")) {
			count++
		}
	}
	return count
}

// missingPhotos is what check says of readings whose photos are not here.
func missingPhotos(dir folder.Folder, rs []tiles.Reading, photos []string) []string {
	here := map[string]bool{}
	for _, name := range photos {
		here[name] = true
	}
	missing, count := map[string]bool{}, 0
	for _, r := range rs {
		if fromPhoto(r) && !here[r.Photo] {
			missing[r.Photo] = true
			count++
		}
	}
	if count == 0 {
		return nil
	}
	return []string{SayMissing(dir, slices.SortedFunc(maps.Keys(missing), folder.ByNumber), count)}
}

// farRows are the rows of tiles/by-hand.csv whose outline lies off its photo.
func farRows(dir folder.Folder, hand []tiles.ByHand) tiles.Problems {
	return measure.FarRows(hand, func(name string) int {
		data, err := dir.ReadPhoto(name)
		if err != nil {
			return 0 // said where photos are looked at
		}
		return photo.LongSide(data)
	})
}

// strayRows says which rows of tiles/by-hand.csv are about no photo there is.
func strayRows(hand []tiles.ByHand, photos []string) (said []string) {
	for _, p := range measure.StrayRows(hand, photos) {
		said = append(said, p.Error())
	}
	return said
}
