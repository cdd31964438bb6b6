package run

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/record"
)

// keeping keeps what is read, photo by photo. It alone writes.
type keeping struct {
	*measuring
	wish    MeasureWish
	tell    *stretch
	tiles   []tiles.Tile // with those that were read as fired
	results map[string]measure.Result
	shown   map[tiles.Number]string // the photo whose pictures were written
	seen    map[string]bool         // photos that were looked at
	here    map[string]bool         // photos that this run is about
	bytes   map[string]string       // of a photo that was looked at, the sum of its file
	did     Measured
	unkept  error // why no file can be written

	pause time.Duration // the least between two times of keeping
	last  time.Time
	dirty bool // something was read since
}

// leastPause is how long a reading may wait to be kept. Keeping takes no more
// than a fiftieth of the time.
const leastPause = 2 * time.Second

func newKeeping(dir folder.Folder, wish MeasureWish, m *measuring) *keeping {
	k := &keeping{measuring: m, wish: wish, tiles: slices.Clone(m.wall.Tiles), results: map[string]measure.Result{},
		shown: map[tiles.Number]string{}, seen: map[string]bool{}, here: map[string]bool{}, bytes: map[string]string{},
		pause: leastPause, last: time.Now()}
	for _, name := range m.photos {
		k.here[name] = true
	}
	k.did.Photos = len(m.photos)
	k.tell = wish.Tell.begin("measuring", len(m.photos))
	return k
}

// take notes what became of a photo. Its error says that no file can be
// written at all.
func (k *keeping) take(o outcome) error {
	if k.unkept != nil {
		return k.unkept
	}
	k.seen[o.photo], k.bytes[o.photo] = true, o.bytes
	said := &PhotoRead{Photo: o.photo, Unchanged: o.unchanged}
	if !o.unchanged && o.err == nil {
		o.err = k.add(o.photo, o.result)
	}
	switch {
	case k.unkept != nil:
		return k.unkept
	case o.unchanged:
		if _, again := k.results[o.photo]; !again {
			k.did.Unchanged++
		}
	case o.err != nil:
		p := photoProblem(folder.Photos+"/"+o.photo, o.err)
		k.did.Problems, said.Problem = append(k.did.Problems, p), &p
	default:
		said.Readings, said.Notes, said.Part = o.result.Readings, o.result.Notes, partFile(o.photo, ".html")
	}
	k.tell.step(said)
	return k.keepNowAndThen()
}

// add writes a photo's pictures of tiles that have none from this run yet;
// which photo a tile is shown by is settled at the end. Without them its
// readings are not kept, so that the next run does both.
func (k *keeping) add(name string, res measure.Result) error {
	for _, r := range res.Readings {
		if err := record.CheckReading(r); err != nil {
			return err
		}
	}
	for _, p := range res.Pictures {
		if from, ok := k.shown[p.Tile]; ok && from != name {
			continue
		}
		k.shown[p.Tile] = name
		if err := writePicture(k.dir, k.files, p, res.Readings); err != nil {
			return k.unwritten(err)
		}
	}
	if err := k.wish.Sheet.part(k.dir, k.wall, name, res); err != nil {
		return k.unwritten(err)
	}
	res.Pictures, res.View = nil, nil
	k.results[name], k.dirty = res, true
	return nil
}

// unwritten tells what stops one photo from what stops them all.
func (k *keeping) unwritten(err error) error {
	var ps tiles.Problems
	if folder.StopsAll(err) || !errors.As(err, &ps) {
		k.unkept = err
	}
	return err
}

// keepNowAndThen keeps what was read, where it is time to.
func (k *keeping) keepNowAndThen() error {
	if !k.dirty || time.Since(k.last) < k.pause {
		return nil
	}
	began := time.Now()
	k.unkept = k.keep()
	k.last = time.Now()
	k.pause = max(leastPause, 50*k.last.Sub(began))
	return k.unkept
}

// keep writes the plan, with the tiles that were read as fired, then the
// readings: a photo whose reading is kept is not looked at again.
func (k *keeping) keep() error {
	if err := k.fire(); err != nil {
		return err
	}
	if !k.dirty {
		return nil
	}
	k.dirty = false
	return record.WriteReadings(k.dir, k.merged())
}

// boards are the photos of whole boards that were read. They are read once more
// where the tiles that correct them were first read in this very run.
func (k *keeping) boards() []string {
	var boards []string
	for name, res := range k.results {
		if slices.ContainsFunc(res.Readings, func(r tiles.Reading) bool { return r.Tile != res.Readings[0].Tile }) {
			boards = append(boards, name)
		}
	}
	slices.Sort(boards)
	return boards
}

// finish writes all that is still to write: the plan, the pictures of tiles
// that another photo than before stands for, the readings, the sheet.
func (k *keeping) finish(ctx context.Context) error {
	for _, name := range k.photos {
		if !k.seen[name] {
			k.did.Left = append(k.did.Left, name)
		}
	}
	k.settleMissing()
	after := k.wall
	after.Readings = k.merged()
	if err := k.fire(); err != nil {
		return err
	}
	r := Pictures(ctx, k.dir, k.files, after, k.wish.Tell)
	k.did.Problems = append(k.did.Problems, r.Lost...)
	if r.Unwritten != nil {
		return r.Unwritten
	}
	if err := k.keep(); err != nil {
		return err
	}
	k.sum()
	return k.wish.Sheet.join(k.dir, k.files, after, k.wish.Program)
}

// merged is the readings there were, with those of every photo measured in
// this run put in their place. Those of photos that are missing stay.
func (k *keeping) merged() []tiles.Reading {
	gone, renamed := map[string]bool{}, k.renamed()
	for _, name := range k.did.Gone {
		gone[name] = true
	}
	var out []tiles.Reading
	for i, r := range k.wall.Readings {
		if _, again := k.results[r.Photo]; again || gone[r.Photo] || renamed[i] != "" && k.reads(renamed[i], r) {
			continue
		}
		r.Away = k.away(r)
		if known := k.bytes[r.Photo]; known != "" && r.Hash != "" && !r.Away {
			r.Bytes = known
		}
		out = append(out, r)
	}
	for _, name := range k.photos {
		for _, r := range k.results[name].Readings {
			r.Bytes = k.bytes[name]
			out = append(out, r)
		}
	}
	for i := range out {
		if t, ok := k.wall.Tile(out[i].Tile); ok && fromPhoto(out[i]) { // what somebody typed in stays
			out[i].Carried = t.Pair
		}
	}
	slices.SortStableFunc(out, func(a, b tiles.Reading) int { return int(a.Tile - b.Tile) })
	return out
}

// fire sets the planned tiles that were read to fired.
func (k *keeping) fire() error {
	read := map[tiles.Number]bool{}
	for _, res := range k.results {
		for _, r := range res.Readings {
			read[r.Tile] = true
		}
	}
	before := k.did.Fired
	for i, t := range k.tiles {
		if t.Status == tiles.Planned && read[t.Number] {
			k.tiles[i].Status = tiles.Fired
			k.did.Fired++
		}
	}
	if k.did.Fired == before {
		return nil
	}
	return record.WriteTiles(k.dir, k.tiles)
}

// sum counts what was done and gathers what lessens trust in it.
func (k *keeping) sum() {
	k.did.Measured = len(k.results)
	if k.all {
		k.did.Warnings = strayRows(k.wall.Hand, k.photos)
	}
	outdated := map[string]bool{}
	for _, r := range k.wall.Readings {
		if _, again := k.results[r.Photo]; again && measure.Outdated(r.Hash) {
			outdated[r.Photo] = true
		}
	}
	k.did.Outdated = len(outdated)
	for _, name := range k.photos {
		res := k.results[name]
		k.did.Readings += len(res.Readings)
		for _, note := range res.Notes {
			k.did.Warnings = append(k.did.Warnings, name+": "+note)
		}
		for _, r := range res.Readings {
			if r.Warning != "" {
				k.did.Warnings = append(k.did.Warnings, fmt.Sprintf("%s, tile %s %s: %s", name, r.Tile, r.Zone, r.Warning))
			}
		}
	}
	after := k.wall
	after.Readings = k.merged()
	k.did.Warnings = append(k.did.Warnings, sayMistaken(after, func(photo string) bool { _, now := k.results[photo]; return now })...)
	k.did.Advice = advise(after, k.results)
	slices.SortFunc(k.did.Problems, func(p, q tiles.Problem) int {
		return folder.ByNumber(strings.TrimPrefix(p.File, folder.Photos+"/"), strings.TrimPrefix(q.File, folder.Photos+"/"))
	})
}
