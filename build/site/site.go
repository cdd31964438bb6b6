// Package site makes the static site of a wall: the wall as a grid, a page for
// every tile and glaze, the teacher's pages, and the data to search by words
// and by color in the browser. It opens from disk, from a stick, from any
// folder of any server, and it asks nothing of anybody else.
package site

import (
	"context"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"sync"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/foresee"
	"github.com/twodip/twodip/tiles/unchanged"
)

// Input is all that a site is made from.
type Input struct {
	Wall  tiles.Wall
	Pages []content.Page // the teacher's own

	// Pictures gives the file of a tile's picture of that width (1280 or 320
	// px): a JPEG without metadata. Nil, or false: the tile has no photo.
	Pictures func(n tiles.Number, width int) (path string, ok bool)
	// PagePicture gives a picture of the teacher's pages, a file below the
	// wall's content/, as a JPEG without metadata. May be nil.
	PagePicture func(file string) ([]byte, error)
	// Skipped says why a pair has no tile; "" = it was not asked for. May be nil.
	Skipped func(p tiles.Pair) string
	// Caution says what to mind with a pair, by the wall's rules; "" = nothing.
	// May be nil.
	Caution func(p tiles.Pair) string
	// Seen gives the trade's words for the faults seen on pieces with the pair,
	// and says how often, a line each, without a word of whose. May be nil.
	Seen func(p tiles.Pair) (faults, says []string)
	// Records says in a few words what Seen tells of people's records; "" =
	// nothing.
	Records string
	// Due says why a tile has to be made again ("batch 7 is new"); "" = it
	// need not be. May be nil.
	Due func(n tiles.Number) string
	// Loads describe the firings, by the name that a tile's load has.
	Loads []tiles.Load

	// Foresee is what the fired tiles say of pairs that are not; nil = no guess
	// is shown.
	Foresee *foresee.Wall

	// Teacher is the teacher's own pages; nil on a site that others may see.
	Teacher *Teacher

	Theme fs.FS // the wall's own theme; nil = none

	// Cache is a folder to keep pictures made for the site in, and what is
	// known of the site that was made; "" = none kept.
	Cache string
	// Version tells one program that makes sites from another that may make
	// them otherwise: what the same one has made from the same is taken over.
	// "" = everything is made anew.
	Version string
	// Sum is the hash of a picture's bytes, where it is known. May be nil.
	Sum func(file string) (string, error)

	// Tick is called twice for each tile as the work goes on, from several
	// goroutines at once. May be nil.
	Tick func()
}

// Report says what was made.
type Report struct {
	Tiles    int      `json:"tiles"`    // tile pages
	Pictured int      `json:"pictured"` // of them with a photo
	Read     int      `json:"read"`     // of them with a color
	Glazes   int      `json:"glazes"`
	Pages    int      `json:"pages"` // the teacher's own
	Files    int      `json:"files"`
	Made     int      `json:"made"` // of the files, those that are not as they were
	Bytes    int64    `json:"bytes"`
	Warnings []string `json:"warnings"` // what is left out and why, one sentence each
	Records  string   `json:"records"`  // what of people's records the site holds, in a few words
}

// Build writes the whole site into the folder dir. The site is made beside it
// and swapped in whole: when something is wrong, or ctx is done before that,
// what was there stays.
func Build(ctx context.Context, dir string, in Input) (Report, error) {
	look, err := readTheme(in.Theme)
	if err != nil {
		return Report{}, err
	}
	out, err := begin(ctx, dir, memoryOf(in.Cache, dir))
	if err != nil {
		return Report{}, err
	}
	defer out.abandon()
	if in.Tick == nil {
		in.Tick = func() {}
	}
	m := &maker{Input: in, out: out, look: look, placed: map[string]string{}}
	if m.shelf, err = readShelf(in.Cache); err != nil {
		return Report{}, err
	}
	if err := m.all(); err != nil {
		return Report{}, err
	}
	if err := out.swap(in.Cache != ""); err != nil {
		return Report{}, err
	}
	return m.report(), m.shelf.forget()
}

// Stands says that the site in dir is, file for file, the one that Build made
// last with that cache.
func Stands(dir, cache string) bool {
	was := unchanged.Read(memoryOf(cache, dir), dir)
	whole := was.Whole()
	_ = was.Save() // without it the next look takes longer
	return whole
}

// memoryOf is the file that keeps what is known of the site in dir.
func memoryOf(cache, dir string) string {
	if cache == "" {
		return ""
	}
	return filepath.Join(cache, filepath.Base(dir)+".files")
}

// maker makes one site.
type maker struct {
	Input
	hanging
	remarks
	out     *output
	look    *look
	shelf   *shelf
	placed  map[string]string // by a picture of the teacher's pages, its address from there
	guesses *guesses          // nil = none are shown
}

// remarks gathers what is left out and why, from several goroutines at once.
type remarks struct {
	mu   sync.Mutex
	warn []string
}

// warning notes what is left out and why.
func (r *remarks) warning(format string, args ...any) {
	r.mu.Lock()
	r.warn = append(r.warn, fmt.Sprintf(format, args...))
	r.mu.Unlock()
}

// all makes everything, each step resting on the ones before.
func (m *maker) all() error {
	for _, step := range []func() error{
		m.join, m.foresee, m.lookFiles, m.pictures, m.dataFiles, m.guessScript, m.wallPage, m.tilePages,
		m.glazePages, m.colorPage, m.orderPage, m.scriptPages, m.ownPages, m.teacherPages,
	} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func (m *maker) report() Report {
	slices.Sort(m.warn)
	r := Report{
		Tiles: len(m.hung), Glazes: len(m.glaze), Pages: len(m.Pages),
		Files: m.out.files, Made: m.out.fresh, Bytes: m.out.bytes, Warnings: m.warn, Records: m.Records,
	}
	if r.Records == "" {
		r.Records = "nothing"
	}
	for _, h := range m.hung {
		if h.photo.ok() {
			r.Pictured++
		}
		if h.read {
			r.Read++
		}
	}
	return r
}
