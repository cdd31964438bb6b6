package main

import (
	"errors"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/measure"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/unchanged"
)

func measureCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "measure [PHOTO…]",
		Short: "Read the colors of the fired tiles from their photos",
		Long: "Read the colors of the fired tiles from the photos in tiles/photos: JPEG, PNG, HEIC,\n" +
			"WebP or TIFF. A photo is named after its tile (7.jpg, \"7 back.heic\"), or shows the\n" +
			"tile with its label on the photo mat, or the whole board with its marks. Without\n" +
			"names, all that are new or changed. Photos are never altered. What was cut out and\n" +
			"used is shown in build/contact.html; what is set in tiles/by-hand.csv is respected.",
		RunE: func(_ *cobra.Command, names []string) error { return a.measure(names) },
	}
}

// measured is what a run of measure did, as --json says it.
type measured struct {
	Photos    int      `json:"photos"`    // looked at
	Measured  int      `json:"measured"`  // read anew
	Unchanged int      `json:"unchanged"` // read before, and the same since
	Outdated  int      `json:"outdated"`  // read anew because an earlier version had read them
	Readings  int      `json:"readings"`  // made in this run
	Fired     int      `json:"fired"`     // tiles that were planned and are fired now
	Gone      []string `json:"gone,omitempty"`
	Warnings  []string `json:"warnings,omitempty"`
	Problems  []string `json:"problems,omitempty"`
}

func (a *app) measure(names []string) error {
	release, err := a.folder().Lock()
	if err != nil {
		return err
	}
	defer release()
	wall, err := a.load()
	if err != nil {
		return err
	}
	photos, err := a.findPhotos(names)
	if err != nil {
		return err
	}
	if len(photos) == 0 {
		return tiles.Problem{File: folder.Photos, What: "there is no photo in it", Do: "put a photo of each tile there, named after its number like 7.jpg"}
	}
	patches, err := a.patches(wall.Settings)
	if err != nil {
		return err
	}
	run := &measuring{app: a, wall: wall, patches: patches, photos: photos, all: len(names) == 0}
	if err := run.do(); err != nil {
		return err
	}
	return run.say()
}

// patches reads the file of the reference's patches, where wall.yaml names one.
func (a *app) patches(s tiles.Settings) ([]color.Patch, error) {
	if s.Photo.Chart == "" {
		return nil, nil
	}
	return record.ReadPatches(a.folder(), s.Photo.Chart)
}

// plainError is the system's reason without the path that is said already.
func plainError(err error) string {
	var pe *os.PathError
	if errors.As(err, &pe) {
		return pe.Err.Error()
	}
	return err.Error()
}

// measuring is one run.
type measuring struct {
	app     *app
	wall    tiles.Wall
	patches []color.Patch
	photos  []string
	all     bool // over every photo there is

	files  *unchanged.Files
	before map[string][]tiles.Reading // by photo

	large    sync.Mutex // held over a photo that takes much memory: one at a time
	mutex    sync.Mutex
	results  map[string]measure.Result // by photo
	pictured map[tiles.Number]string   // the photo whose pictures were written
	did      measured
	problems tiles.Problems
	unkept   error // why no file can be written: nothing is worth measuring then
}

func (m *measuring) do() error {
	m.results = map[string]measure.Result{}
	m.pictured = map[tiles.Number]string{}
	m.did.Photos = len(m.photos)
	m.files = m.app.knownFiles()
	m.readAll(m.photos)
	m.again()
	if m.unkept == nil {
		m.unkept = m.keep()
	}
	_ = m.files.Save() // without it the next run takes longer, and nothing else
	return m.unkept
}

// again reads photos of the whole board once more where the tiles that they
// are corrected by were first read in this very run.
func (m *measuring) again() {
	var boards []string
	was := m.wall.Readings
	m.wall.Readings = m.merged()
	for name, res := range m.results {
		if many := slices.ContainsFunc(res.Readings, func(r tiles.Reading) bool { return r.Tile != res.Readings[0].Tile }); many {
			boards = append(boards, name)
		}
	}
	slices.Sort(boards)
	m.readAll(boards)
	m.wall.Readings = was
}

// workerMemory is what one worker is to keep to: a 12-megapixel photo needs
// some 45 MB, and beyond this it is time to clear up after the one before.
// Larger photos take what they need.
const workerMemory = 52 << 20

// readAll reads photos on all cores.
func (m *measuring) readAll(photos []string) {
	m.before = map[string][]tiles.Reading{}
	for _, r := range m.wall.Readings {
		m.before[r.Photo] = append(m.before[r.Photo], r)
	}
	bar := m.app.progress(len(photos), "measuring")
	work := make(chan string)
	var workers sync.WaitGroup
	count := min(runtime.GOMAXPROCS(0), len(photos))
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(int64(count) * workerMemory))
	for range count {
		workers.Go(func() {
			var reader measure.Reader
			for name := range work {
				m.one(&reader, name)
				_ = bar.Add(1)
			}
		})
	}
	for _, name := range photos {
		work <- name
	}
	close(work)
	workers.Wait()
	_ = bar.Finish()
}

// one measures one photo, unless it is as it was.
func (m *measuring) one(reader *measure.Reader, name string) {
	ask := measure.Ask{Wall: m.wall, Photo: name, Patches: m.patches, View: true}
	if m.known(ask) {
		return
	}
	data, err := m.app.folder().ReadPhoto(name)
	if err != nil {
		m.refused(name, err)
		return
	}
	if photo.Large(data) {
		m.large.Lock()
		defer m.large.Unlock()
	}
	res, err := reader.Read(data, ask)
	if err != nil {
		m.refused(name, err)
		return
	}
	m.took(name, res)
}

// known says whether the photo has been read before, just so.
func (m *measuring) known(ask measure.Ask) bool {
	before := m.before[ask.Photo]
	if len(before) == 0 {
		return false
	}
	sum, err := m.files.Sum(folder.Photos + "/" + ask.Photo)
	if err != nil {
		return false // reading it will say why
	}
	hash := ask.Hash(sum, before)
	return slices.ContainsFunc(before, func(r tiles.Reading) bool { return r.Hash == hash })
}

func (m *measuring) refused(name string, err error) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	m.problems = append(m.problems, photoProblem(folder.Photos+"/"+name, err))
}

// photoProblem says for a person why a photo could not be read.
func photoProblem(file string, err error) tiles.Problem {
	p := tiles.Problem{File: file}
	var refusal photo.Refusal
	var ps tiles.Problems
	switch {
	case errors.As(err, &p):
	case errors.As(err, &ps):
		p = ps[0]
	case errors.As(err, &refusal):
		p.What, p.Do = refusal.What, refusal.Do
	default:
		p.What = plainError(err)
	}
	return p
}

// took notes a photo's readings and writes the pictures of tiles that have
// none from this run yet; which photo a tile is shown by is settled at the end.
func (m *measuring) took(name string, res measure.Result) {
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if m.unkept != nil {
		return
	}
	for _, p := range res.Pictures {
		if from, ok := m.pictured[p.Tile]; ok && from != name {
			continue
		}
		m.pictured[p.Tile] = name
		if err := m.app.writePicture(m.files, p, res.Readings); err != nil {
			m.unwritten(err)
			return
		}
	}
	if err := m.view(name, res); err != nil {
		m.unwritten(err)
		return
	}
	res.Pictures, res.View = nil, nil
	m.results[name] = res
}

// unwritten notes that a photo's pictures cannot be written; without them its
// reading is not kept, so that the next run does both.
func (m *measuring) unwritten(err error) {
	var ps tiles.Problems
	if folder.StopsAll(err) || !errors.As(err, &ps) {
		m.unkept = err
	}
	m.problems = append(m.problems, ps...)
}

// sum counts what was done and gathers what lessens trust in it.
func (m *measuring) sum() {
	m.did.Measured = len(m.results)
	m.did.Unchanged = len(m.photos) - len(m.results) - len(m.problems)
	m.did.Outdated = m.outdated()
	for _, name := range m.photos {
		res := m.results[name]
		m.did.Readings += len(res.Readings)
		for _, note := range res.Notes {
			m.did.Warnings = append(m.did.Warnings, name+": "+note)
		}
		for _, r := range res.Readings {
			if r.Warning != "" {
				m.did.Warnings = append(m.did.Warnings, fmt.Sprintf("%s, tile %s %s: %s", name, r.Tile, r.Zone, r.Warning))
			}
		}
	}
}

// outdated counts the photos measured in this run that an earlier version of
// the program had read in its own way.
func (m *measuring) outdated() int {
	photos := map[string]bool{}
	for _, r := range m.wall.Readings {
		if _, again := m.results[r.Photo]; again && measure.Outdated(r.Hash) {
			photos[r.Photo] = true
		}
	}
	return len(photos)
}
