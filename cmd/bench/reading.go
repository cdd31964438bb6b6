package bench

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// reading is the photographs that wait to be read, and what was found in those
// that were read since the bench was started: why one cannot be read stands in
// no file.
type reading struct {
	mu      sync.Mutex
	dir     string
	waiting []string
	going   bool
	found   map[string]run.PhotoRead
	wall    tiles.Wall // as it was when they were begun to be read
	refused []string   // what was sent and is no photograph, a sentence each

	decode sync.Mutex // one whole photograph is opened at a time, to be shown
}

// of forgets what is not of the wall.
func (r *reading) of(dir folder.Folder) {
	if r.dir != dir.Dir() {
		r.dir, r.found, r.waiting, r.refused = dir.Dir(), map[string]run.PhotoRead{}, nil, nil
	}
}

// all is what is known of every photo that was read.
func (r *reading) all(dir folder.Folder) map[string]run.PhotoRead {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.of(dir)
	out := map[string]run.PhotoRead{}
	for name, p := range r.found {
		out[name] = p
	}
	return out
}

// one is what was found in one photo.
func (r *reading) one(dir folder.Folder, name string) (tiles.Wall, run.PhotoRead, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.of(dir)
	p, ok := r.found[name]
	return r.wall, p, ok
}

// mostRefused is how many refusals are kept.
const mostRefused = 500

func (r *reading) refuse(dir folder.Folder, says []string) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.of(dir)
	r.refused = append(r.refused, says...)
	r.refused = r.refused[max(0, len(r.refused)-mostRefused):]
}

// takeRefused is what was refused since it was asked last.
func (r *reading) takeRefused(dir folder.Folder) []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.of(dir)
	out := append([]string{}, r.refused...)
	r.refused = nil
	return out
}

// next takes what waits, and says with the same breath when nothing does.
func (r *reading) next() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	out := r.waiting
	r.waiting, r.going = nil, len(out) > 0
	return out
}

// end lets go of what was not come to: it is new the next time.
func (r *reading) end() {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.waiting, r.going = nil, false
}

// mostBusy is how long a work that is just ending is waited for.
const mostBusy = 2 * time.Second

// readPhotos begins to read photographs, or has those that are read now be
// followed by them.
func (b *Bench) readPhotos(dir folder.Folder, names []string) error {
	r := &b.reading
	for began := time.Now(); ; time.Sleep(20 * time.Millisecond) {
		r.mu.Lock()
		r.of(dir)
		if r.going {
			r.waiting = append(r.waiting, names...)
			r.mu.Unlock()
			return nil
		}
		err := b.start("Reading photographs", b.readAll)
		if err == nil {
			r.going, r.waiting = true, append(r.waiting, names...)
		}
		r.mu.Unlock()
		if !errors.Is(err, errBusy) || time.Since(began) > mostBusy {
			return err
		}
	}
}

// everything stands among the photos that wait for all that are new or changed.
const everything = ""

// readAll reads what waits until nothing does.
func (b *Bench) readAll(ctx context.Context, dir folder.Folder, tell run.Tell) (outcome, error) {
	defer b.reading.end()
	wall, err := run.Load(dir)
	if err != nil {
		return outcome{}, err
	}
	b.reading.mu.Lock()
	b.reading.wall = wall
	b.reading.mu.Unlock()
	var sum run.Measured
	behind := 0
	for ctx.Err() == nil {
		names := b.reading.next()
		if len(names) == 0 {
			break
		}
		if slices.Contains(names, everything) {
			names = nil
		}
		did, err := run.Measure(ctx, dir, run.MeasureWish{Photos: names, Sheet: contact.Sheet, Program: b.program, Tell: b.hear(tell, behind)})
		if err != nil {
			return sayRead(sum), err
		}
		behind += did.Photos
		add(&sum, did)
	}
	return sayRead(sum), nil
}

// hear keeps what is found in each photo, and counts over all that were brought.
func (b *Bench) hear(tell run.Tell, behind int) run.Tell {
	return func(e run.Event) {
		if e.Photo != nil {
			b.reading.mu.Lock()
			b.reading.found[e.Photo.Photo] = *e.Photo
			b.reading.mu.Unlock()
		}
		e.Done, e.Total = e.Done+behind, e.Total+behind
		tell(e)
	}
}

func add(sum *run.Measured, did run.Measured) {
	sum.Photos += did.Photos
	sum.Measured += did.Measured
	sum.Unchanged += did.Unchanged
	sum.Readings += did.Readings
	sum.Fired += did.Fired
	sum.Left = append(sum.Left, did.Left...)
	sum.Missing, sum.Advice = did.Missing, did.Advice
	sum.Problems = append(sum.Problems, did.Problems...)
}

// sayRead says what was read; what is wrong with a photo stands beside it.
func sayRead(m run.Measured) outcome {
	var o outcome
	if m.Measured > 0 {
		o.Said = append(o.Said, fmt.Sprintf("%s read: %s.", english.Count(m.Measured, "photograph", "photographs"), english.Count(m.Readings, "color", "colors")))
	}
	if m.Fired > 0 {
		o.Said = append(o.Said, english.Count(m.Fired, "tile that was planned is", "tiles that were planned are")+" fired now.")
	}
	if m.Unchanged > 0 {
		o.Said = append(o.Said, english.Count(m.Unchanged, "photograph was", "photographs were")+" read before and stayed the same.")
	}
	if n := len(m.Problems); n > 0 {
		o.Said = append(o.Said, english.Count(n, "photograph", "photographs")+" could not be read: see the first ones below.")
	}
	if n := len(m.Left); n > 0 {
		o.Said = append(o.Said, english.Count(n, "photograph is", "photographs are")+" left: read the new ones to go on.")
	}
	if n := len(m.Missing); n > 0 {
		o.Said = append(o.Said, english.Count(n, "photograph is", "photographs are")+" not here any more; their colors are kept.")
	}
	for _, advice := range m.Advice {
		o.Said = append(o.Said, english.Sentence(advice))
	}
	return o
}
