package bench

import (
	"context"
	"errors"
	"sync"

	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// work is the one long work that goes on at a time: the wall lets one command
// write, and the machine has one pair of hands.
type work struct {
	tell news

	mu     sync.Mutex
	state  workNow
	cancel context.CancelFunc
	done   chan struct{}
}

// workNow is how the work stands, for a page.
type workNow struct {
	Name   string   // "Reading 12 photographs"; "" = nothing was begun yet
	Going  bool     // it goes on
	What   string   // the stretch that it is at
	Done   int      // of Total
	Total  int      //
	Ending bool     // it was asked to stop
	Did    *note    // what came of it
	Wrong  []string // what went wrong, one sentence each
}

// outcome is what came of long work.
type outcome struct {
	Said  []string
	Next  *link
	Wrong []string // what went wrong with a part of it, one sentence each
}

var errBusy = errors.New("the bench is at work: wait until it is done, or stop it, and do this again")

// start begins long work on the wall; do is told to stop by its context. What
// it tells goes to every page that is open.
func (b *Bench) start(name string, do func(context.Context, folder.Folder, run.Tell) (outcome, error)) error {
	dir, _ := b.folder()
	w := &b.work
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.state.Going {
		return errBusy
	}
	ctx, cancel := context.WithCancel(context.Background())
	w.state, w.cancel, w.done = workNow{Name: name, Going: true}, cancel, make(chan struct{})
	go func(done chan struct{}) {
		defer close(done)
		defer cancel()
		var came outcome
		err := run.Guarded(func() (err error) {
			came, err = do(ctx, dir, w.step)
			return err
		})
		w.ended(came, err)
	}(w.done)
	w.tell.say("work", w.state)
	return nil
}

// step is told by the verb.
func (w *work) step(e run.Event) {
	w.mu.Lock()
	w.state.What, w.state.Done, w.state.Total = e.What, e.Done, e.Total
	now := w.state
	w.mu.Unlock()
	w.tell.say("work", now)
	if e.Photo != nil {
		w.tell.say("photo", e.Photo)
	}
}

func (w *work) ended(came outcome, err error) {
	w.mu.Lock()
	w.state.Going, w.state.Wrong = false, came.Wrong
	if len(came.Said) > 0 {
		w.state.Did = &note{Said: came.Said, Next: came.Next}
	}
	if err != nil {
		w.state.Wrong = append(sentences(err), w.state.Wrong...)
	}
	now := w.state
	w.mu.Unlock()
	w.tell.say("work", now)
}

// stop asks the work to finish what it has in hand, and end.
func (w *work) stop() {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.state.Going {
		w.state.Ending = true
		w.cancel()
	}
}

// wait waits until the work has ended.
func (w *work) wait() {
	w.mu.Lock()
	done := w.done
	w.mu.Unlock()
	if done != nil {
		<-done
	}
}

func (w *work) busy() bool { return w.now().Going }

func (w *work) now() workNow {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.state
}
