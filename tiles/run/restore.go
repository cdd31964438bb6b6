package run

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Kept is an earlier version of a file, and how it differs from the one before.
type Kept struct {
	File string    `json:"file"`
	Turn int       `json:"version"`
	At   time.Time `json:"kept"`
	Says string    `json:"says"` // "29 tiles retired"; "" = the first that was kept
	Now  bool      `json:"now"`  // the file is like this now
}

// Earlier lists the kept versions of every file, the newest of each first.
func Earlier(dir folder.Folder) ([]Kept, error) {
	versions, err := earlier.List(dir)
	if err != nil {
		return nil, err
	}
	var out []Kept
	for _, file := range earlier.Files {
		now, _ := dir.Read(file, 1<<30)
		of := earlier.Of(versions, file)
		for i, v := range of {
			k := Kept{File: v.File, Turn: v.Turn, At: v.Kept}
			data, err := v.Read(dir)
			switch {
			case err != nil:
				k.Says = "damaged: it cannot be brought back"
			case i+1 < len(of):
				before, _ := of[i+1].Read(dir)
				k.Says = differs(file, before, data)
			}
			k.Now = err == nil && now != nil && bytes.Equal(now, data)
			out = append(out, k)
		}
	}
	return out, nil
}

// differs says in a few words how a file differs from its version before.
func differs(file string, before, after []byte) string {
	var said []string
	if file == record.PlanFile {
		said = tilesDiffer(before, after)
	}
	if len(said) == 0 {
		said = linesDiffer(before, after)
	}
	return strings.Join(said, ", ")
}

func tilesDiffer(before, after []byte) []string {
	was, errWas := record.ParseTiles(before)
	is, errIs := record.ParseTiles(after)
	if errWas != nil || errIs != nil {
		return nil
	}
	counts := map[tiles.Status]int{}
	added, other := 0, 0
	for _, t := range is {
		switch old, there := tiles.FindTile(was, t.Number); {
		case !there:
			added++
		case !old.Pair.Same(t.Pair):
			other++
		case old.Status != t.Status:
			counts[t.Status]++
		}
	}
	var said []string
	add := func(n int, what string) {
		if n > 0 {
			said = append(said, english.Count(n, "tile", "tiles")+" "+what)
		}
	}
	add(added, "numbered")
	add(other, "with other codes")
	for _, s := range tiles.Statuses {
		add(counts[s], string(s))
	}
	add(max(0, len(was)-(len(is)-added)), "gone")
	return said
}

func linesDiffer(before, after []byte) []string {
	count := map[string]int{}
	for line := range bytes.Lines(before) {
		count[string(line)]--
	}
	for line := range bytes.Lines(after) {
		count[string(line)]++
	}
	more, fewer := 0, 0
	for _, n := range count {
		more, fewer = more+max(n, 0), fewer+max(-n, 0)
	}
	changed := min(more, fewer)
	var said []string
	for _, part := range []struct {
		n    int
		what string
	}{{changed, "changed"}, {more - changed, "new"}, {fewer - changed, "gone"}} {
		if part.n > 0 {
			said = append(said, english.Count(part.n, "line", "lines")+" "+part.what)
		}
	}
	return said
}

// RestoreWish says which version to bring back.
type RestoreWish struct {
	File string // "tiles/plan.csv", or "plan.csv", or "plan"
	Turn int    // 0 = the newest that is not what the file holds now
	Seen string // the Sum of the file as the person saw it; "" = as it is
}

// Restore puts an earlier version of a file in its place; what is there now is
// kept first, so that this can be undone too. A plan keeps the rows of numbers
// that were given since the version.
func Restore(dir folder.Folder, wish RestoreWish) (Kept, error) {
	release, err := Hold(dir)
	if err != nil {
		return Kept{}, err
	}
	defer release()
	all, err := Earlier(dir)
	if err != nil {
		return Kept{}, err
	}
	k, err := choose(all, wish)
	if err != nil || k.Now {
		return k, err
	}
	if held, sum, err := Look(dir, k.File); err != nil || wish.Seen != "" && wish.Seen != sum {
		return k, errors.Join(err, ErrStale{File: k.File, Now: held})
	}
	versions, err := earlier.List(dir)
	if err != nil {
		return k, err
	}
	at := slices.IndexFunc(versions, func(v earlier.Version) bool { return v.File == k.File && v.Turn == k.Turn })
	now, _ := record.ReadTiles(dir) // nothing, where it cannot be read
	err = earlier.Restore(dir, versions[at], time.Now())
	if errors.Is(err, earlier.ErrDamaged) {
		err = tiles.Problem{File: versions[at].Saved, What: "has been changed or damaged since it was kept", Do: "choose another version: twodip restore lists them", Page: "choose another version"}
	}
	if err == nil && k.File == record.PlanFile {
		if err = rejoin(dir, now, versions); err == nil {
			err = earlier.Keep(dir, time.Now(), record.PlanFile)
		}
	}
	return k, err
}

// choose finds the version that is meant.
func choose(all []Kept, wish RestoreWish) (Kept, error) {
	var of []Kept
	for _, k := range all {
		base := path.Base(k.File)
		if strings.EqualFold(wish.File, k.File) || strings.EqualFold(wish.File, base) || strings.EqualFold(wish.File, strings.TrimSuffix(base, path.Ext(base))) {
			of = append(of, k)
		}
	}
	if len(of) == 0 {
		return Kept{}, tiles.Problem{File: wish.File, What: "no earlier version of it is kept", Do: "twodip restore, without a name, lists what is kept", Page: "there is nothing to bring back"}
	}
	for _, k := range of {
		if k.Turn == wish.Turn || (wish.Turn == 0 && !k.Now) {
			return k, nil
		}
	}
	if wish.Turn == 0 {
		return Kept{}, tiles.Problem{File: of[0].File, What: "is as the only version that is kept of it", Do: "there is nothing to bring back"}
	}
	return Kept{}, tiles.Problem{File: of[0].File, What: fmt.Sprintf("there is no version %d of it", wish.Turn), Do: "twodip restore lists the versions", Page: "choose one that is listed"}
}

// rejoin adds to a plan that was brought back the rows of numbers given since,
// as the newest version has them: a number is given once, whatever comes back.
func rejoin(dir folder.Folder, now []tiles.Tile, versions []earlier.Version) error {
	then, err := record.ReadTiles(dir)
	if err != nil {
		return err
	}
	known := map[tiles.Number]bool{}
	add := func(ts []tiles.Tile) {
		for _, t := range ts {
			if !known[t.Number] {
				known[t.Number] = true
				then = append(then, t)
			}
		}
	}
	for _, t := range then {
		known[t.Number] = true
	}
	before := len(then)
	for _, v := range earlier.Of(versions, record.PlanFile) {
		if ts, err := tilesOf(dir, v); err == nil {
			add(ts)
		}
	}
	add(now)
	if len(then) == before {
		return nil
	}
	return record.WriteTiles(dir, then)
}
