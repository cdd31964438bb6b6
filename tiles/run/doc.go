// Package run is what a person can ask of a wall: plan, measure, log, trace,
// drift, check, find. Each verb is a function that takes the wall's folder and
// a wish, and gives back what it did and what is wrong as values; build/produce
// holds the verbs that make PDFs and the site. Fronts stand over these: they
// hold words, forms and exit statuses.
//
// A verb prints nothing. While it is at work it tells what it does, an Event at
// a time, to whoever wants to know. What is wrong with the wall comes back as
// an error that is tiles.Problems, each with its file and line; what is wrong
// with one photo among many stands in the result, and the rest is done.
//
// A verb that writes takes the wall's lock itself, and writes files whole or
// not at all. One that takes long takes a context: when it is done, the verb
// finishes what it has in hand, keeps it, and says what is left; asked again,
// it goes on from there.
//
//	planned, err := run.LookAtPlan(dir, run.PlanWish{})  // what would change; nothing is written
//	planned, err = run.Plan(dir, run.PlanWish{})         // the same, written
//	did, err := run.Measure(ctx, dir, run.MeasureWish{Sheet: contact.Sheet, Tell: tell})
package run

import (
	"sync"

	"github.com/twodip/twodip/tiles"
)

// Event is one thing that a verb tells while it is at work. Total is how many
// steps the stretch of work What has, and Done how many of them are behind.
type Event struct {
	What  string     `json:"what,omitempty"` // "measuring", "pictures", "printing", "the site"
	Done  int        `json:"done"`
	Total int        `json:"total"`
	Photo *PhotoRead `json:"photo,omitempty"` // measure: the photo that was just looked at
}

// PhotoRead is what measure found in one photo.
type PhotoRead struct {
	Photo     string          `json:"photo"`               // below tiles/photos
	Unchanged bool            `json:"unchanged,omitempty"` // read before, and the same since
	Readings  []tiles.Reading `json:"readings,omitempty"`
	Notes     []string        `json:"notes,omitempty"`   // about the photo as a whole
	Problem   *tiles.Problem  `json:"problem,omitempty"` // why it could not be read
	Part      string          `json:"part,omitempty"`    // the file of the wall that shows what was cut out and used
}

// Tell is told what happens, one event after the other; nil hears nothing. It
// should be quick: the verb waits for it.
type Tell func(Event)

// stretch tells of a stretch of work, step by step.
type stretch struct {
	tell        Tell
	what        string
	done, total int
}

// begin tells that a stretch of work begins.
func (tell Tell) begin(what string, total int) *stretch {
	s := &stretch{tell: tell, what: what, total: total}
	s.say(nil)
	return s
}

// Steps begins a stretch of work that is told of by calling what it returns,
// once a step, from any goroutine.
func (tell Tell) Steps(what string, total int) (step func()) {
	var one sync.Mutex
	s := tell.begin(what, total)
	return func() {
		one.Lock()
		defer one.Unlock()
		s.step(nil)
	}
}

// step tells that one more step is behind.
func (s *stretch) step(photo *PhotoRead) {
	s.done++
	s.say(photo)
}

func (s *stretch) say(photo *PhotoRead) {
	if s.tell != nil {
		s.tell(Event{What: s.what, Done: s.done, Total: s.total, Photo: photo})
	}
}
