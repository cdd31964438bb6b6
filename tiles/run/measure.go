package run

import (
	"context"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/unchanged"
)

// MeasureWish is what a person asks measure for.
type MeasureWish struct {
	Photos  []string // from where the person is, or below tiles/photos; none = all that are new or changed
	Sheet   Sheet    // writes what was cut out and used
	Forget  bool     // take out the readings of the photos named that are missing, or of all that are
	Program string   // tells this program from another that makes the sheet otherwise
	Tell    Tell
}

// Measured is what a run of measure did.
type Measured struct {
	Photos    int            `json:"photos"`             // looked at
	Measured  int            `json:"measured"`           // read anew
	Unchanged int            `json:"unchanged"`          // read before, and the same since
	Outdated  int            `json:"outdated"`           // read anew because an earlier version had read them
	Readings  int            `json:"readings"`           // made in this run
	Fired     int            `json:"fired"`              // tiles that were planned and are fired now
	Missing   []string       `json:"missing,omitempty"`  // photos that are not here: their readings are kept
	Kept      int            `json:"kept,omitempty"`     // so many readings
	Renamed   []string       `json:"renamed,omitempty"`  // photos that are here under another name, said with it
	Gone      []string       `json:"gone,omitempty"`     // photos that are not here: their readings were taken out, as was asked
	Left      []string       `json:"left,omitempty"`     // photos that were not looked at before it was stopped
	Warnings  []string       `json:"warnings,omitempty"` // what lessens trust in a reading
	Advice    []string       `json:"advice,omitempty"`   // what would make later readings better, a sentence each
	Problems  tiles.Problems `json:"problems,omitempty"` // photos that could not be read
}

// Measure reads the colors of the fired tiles from their photos. What is read
// is kept as it comes. When ctx is done the photos in hand are finished, and
// Left says what is left: asked again, it goes on there. The error is of what
// stops everything; photos that cannot be read stand in Problems.
func Measure(ctx context.Context, dir folder.Folder, wish MeasureWish) (Measured, error) {
	c, err := take(dir)
	if err != nil {
		return Measured{}, err
	}
	defer c.end()
	m, err := newMeasuring(dir, wish)
	if err != nil {
		return Measured{}, err
	}
	if err := c.begin(); err != nil {
		return Measured{}, err
	}
	k := newKeeping(dir, wish, m)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	take := func(one outcome) {
		if k.take(one) != nil {
			stop() // no file can be written: nothing is worth measuring
		}
	}
	m.read(ctx, m.photos, take)
	m.with(k.merged()).read(ctx, k.boards(), take)
	if k.unkept == nil {
		k.unkept = k.finish(ctx)
	}
	_ = m.files.Save() // without it the next run takes longer, and nothing else
	return k.did, k.unkept
}

// measuring reads photos; nothing in it changes while it does.
type measuring struct {
	dir     folder.Folder
	wall    tiles.Wall
	patches []color.Patch
	photos  []string
	gone    []string // photos that are not here, whose readings are to be taken out
	all     bool     // over every photo there is
	files   *unchanged.Files
	before  map[string][]tiles.Reading // by photo
	large   sync.Mutex                 // held over a photo that takes much memory: one at a time
	one     func(*measure.Reader, []byte, measure.Ask) (measure.Result, error)
}

func newMeasuring(dir folder.Folder, wish MeasureWish) (*measuring, error) {
	m := &measuring{dir: dir, all: len(wish.Photos) == 0, one: (*measure.Reader).Read}
	var err error
	if m.wall, err = Load(dir); err != nil {
		return nil, err
	}
	if wish.Forget && !m.all {
		m.gone, err = forgettable(dir, wish.Photos, m.wall.Readings)
	} else {
		m.photos, err = findPhotos(dir, wish.Photos, m.wall.Readings)
	}
	if err != nil {
		return nil, err
	}
	if m.patches, err = patches(dir, m.wall.Settings); err != nil {
		return nil, err
	}
	m.files = KnownFiles(dir)
	return m.with(m.wall.Readings), nil
}

// with is the same with other readings on the wall.
func (m *measuring) with(readings []tiles.Reading) *measuring {
	after := &measuring{dir: m.dir, wall: m.wall, patches: m.patches, photos: m.photos, gone: m.gone, all: m.all, files: m.files, one: m.one,
		before: map[string][]tiles.Reading{}}
	after.wall.Readings = readings
	for _, r := range readings {
		after.before[r.Photo] = append(after.before[r.Photo], r)
	}
	return after
}

// outcome is what became of one photo.
type outcome struct {
	photo     string
	bytes     string // begins the sum of its file, where it could be read
	unchanged bool
	result    measure.Result
	err       error
}

// workerMemory is what one worker is to keep to: a 12-megapixel photo needs
// some 45 MB, and beyond this it is time to clear up after the one before.
// Larger photos take what they need.
const workerMemory = 52 << 20

// read reads photos on all cores until ctx is done, and hands over what became
// of each as it comes.
func (m *measuring) read(ctx context.Context, photos []string, take func(outcome)) {
	if len(photos) == 0 {
		return
	}
	count := min(runtime.GOMAXPROCS(0), len(photos))
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(int64(count) * workerMemory))
	work, done := make(chan string), make(chan outcome)
	var workers sync.WaitGroup
	for range count {
		workers.Go(func() {
			var reader measure.Reader
			for name := range work {
				done <- m.look(&reader, name)
			}
		})
	}
	go func() {
		hand(ctx, photos, work)
		workers.Wait()
		close(done)
	}()
	for one := range done {
		take(one)
	}
}

// hand gives out the work until ctx is done.
func hand(ctx context.Context, photos []string, work chan<- string) {
	defer close(work)
	for _, name := range photos {
		select {
		case <-ctx.Done():
			return
		case work <- name:
		}
	}
}

// look measures one photo, unless it is as it was.
func (m *measuring) look(reader *measure.Reader, name string) outcome {
	o := outcome{photo: name}
	ask := measure.Ask{Wall: m.wall, Photo: name, Patches: m.patches, View: true}
	if o.bytes, o.unchanged = m.known(ask); o.unchanged {
		return o
	}
	data, err := m.dir.ReadPhoto(name)
	if err != nil {
		o.err = err
		return o
	}
	o.bytes = bytesOf(measure.Sum(data))
	if photo.Large(data) {
		m.large.Lock()
		defer m.large.Unlock()
	}
	o.err = Guarded(func() (err error) {
		o.result, err = m.one(reader, data, ask)
		return err
	})
	if o.err != nil {
		*reader = measure.Reader{} // what it holds may be half of something
	}
	return o
}

// known says whether the photo has been read before, just so, and what its
// bytes are where they were looked at for it.
func (m *measuring) known(ask measure.Ask) (bytes string, before bool) {
	rs := m.before[ask.Photo]
	if len(rs) == 0 {
		return "", false
	}
	sum, err := m.files.Sum(folder.Photos + "/" + ask.Photo)
	if err != nil {
		return "", false // reading it will say why
	}
	hash := ask.Hash(sum, rs)
	return bytesOf(sum), slices.ContainsFunc(rs, func(r tiles.Reading) bool { return r.Hash == hash })
}
