package run

import (
	"context"
	"errors"
	"sync"
	"time"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Intake takes pieces from many phones into the log of one wall. Those that
// come while a row is being written are written together with the next: each
// is on the disk before its phone is told: in the log, or, while a command has
// the wall, beside it (record.WaitingFile), until the wall is free.
type Intake struct {
	ctx context.Context
	dir folder.Folder

	atDesk sync.Mutex
	desk   record.Desk

	mu      sync.Mutex
	waiting []waiting
	writing bool

	takingUp bool
}

type waiting struct {
	arrival record.Arrival
	done    chan taken
}

type taken struct {
	called string
	err    error
}

// NewIntake is the intake of a wall, until ctx is done. What waits from an earlier
// one is taken up.
func NewIntake(ctx context.Context, dir folder.Folder) *Intake {
	in := &Intake{ctx: ctx, dir: dir}
	if release, err := dir.Desk(deskPatience); err == nil { // else the first row says why
		release()
	}
	in.takeUp()
	return in
}

// TakePiece takes a piece into the log, and says what it is called there. The
// same key again is the same piece.
func (in *Intake) TakePiece(a record.Arrival) (called string, err error) {
	w := waiting{a, make(chan taken, 1)}
	in.mu.Lock()
	in.waiting = append(in.waiting, w)
	if !in.writing {
		in.writing = true
		go in.write()
	}
	in.mu.Unlock()
	t := <-w.done
	return t.called, t.err
}

// write writes those who wait, until nobody does.
func (in *Intake) write() {
	for {
		in.mu.Lock()
		group := in.waiting
		in.waiting = nil
		if len(group) == 0 {
			in.writing = false
			in.mu.Unlock()
			return
		}
		in.mu.Unlock()
		var called []string
		err := Guarded(func() (err error) {
			called, err = in.take(group)
			return err
		})
		for i, w := range group {
			t := taken{err: err}
			if err == nil {
				t.called = called[i]
			}
			w.done <- t
		}
	}
}

// How long a phone waits for a command that has the wall, before what it sent is
// put beside the log: most commands have it for a moment. Where rows wait already
// nobody waits again. patience is for what cannot be put aside.
const (
	aMoment  = 150 * time.Millisecond
	patience = 20 * time.Second
)

func (in *Intake) take(group []waiting) (called []string, err error) {
	arrived := make([]record.Arrival, len(group))
	for i, w := range group {
		arrived[i] = w.arrival
	}
	err = in.now(func(s tiles.Settings) error {
		called, err = in.desk.Take(in.dir, s.Log, arrived)
		return err
	}, func(s tiles.Settings) error {
		called, err = in.desk.PutBy(in.dir, s.Log, arrived)
		return err
	})
	return called, err
}

// FillPiece writes into a piece's row what is not written there yet: its load
// and shelf, how it came out. What is written there stays; filled is what it wrote.
func (in *Intake) FillPiece(id string, row record.Cells) (filled record.Cells, err error) {
	err = in.now(func(s tiles.Settings) error {
		filled, err = record.FillPiece(in.dir, s.Log, id, row)
		return err
	}, func(s tiles.Settings) error {
		filled, err = record.SayLater(in.dir, s.Log, id, row)
		return err
	})
	return filled, err
}

// EmptyPiece takes back what FillPiece wrote, where it still stands.
func (in *Intake) EmptyPiece(id string, filled record.Cells) error {
	return in.now(func(s tiles.Settings) error { return record.EmptyPiece(in.dir, s.Log, id, filled) },
		func(s tiles.Settings) error { return record.TakeBackLater(in.dir, s.Log, id, filled) })
}

// now does something to the log, or, while a command has the wall or the log's
// file is open elsewhere, later does it beside the log.
func (in *Intake) now(do, later func(tiles.Settings) error) error {
	s, err := content.ReadSettings(in.dir)
	if err != nil {
		return err
	}
	in.atDesk.Lock()
	defer in.atDesk.Unlock()
	wait := aMoment
	if record.Waits(in.dir) {
		wait = 0
	}
	letGo, err := holdSoon(in.dir, wait)
	if err == nil {
		defer letGo()
		return in.directly(s, do, later)
	}
	err = in.aside(s, later)
	if !errors.Is(err, folder.ErrNoLocks) {
		return err
	}
	if letGo, err = holdSoon(in.dir, patience); err != nil {
		return err
	}
	defer letGo()
	return in.directly(s, do, later)
}

// directly does it to the log, by who holds the wall's lock.
func (in *Intake) directly(s tiles.Settings, do, later func(tiles.Settings) error) error {
	written := true
	err := atDesk(in.dir, func() error {
		if err := keepLog(in.dir); err != nil {
			written = false
			return err
		}
		err := do(s)
		var one tiles.Problem
		written = err == nil || errors.As(err, &one) // a refusal is an answer
		return err
	})
	if written {
		return err
	}
	if in.aside(s, later) == nil {
		return nil
	}
	return err
}

// aside does it beside the log, and sees to it that it is taken up.
func (in *Intake) aside(s tiles.Settings, later func(tiles.Settings) error) error {
	release, err := in.dir.Desk(deskPatience)
	if err != nil {
		return err
	}
	err = later(s)
	release()
	in.takeUp()
	return err
}

// How often it is tried to take up what waits: a command that ends does it itself.
const (
	firstTry = 100 * time.Millisecond
	lastTry  = 2 * time.Second
)

// takeUp takes up what waits as soon as the wall is free.
func (in *Intake) takeUp() {
	in.mu.Lock()
	defer in.mu.Unlock()
	if in.takingUp || !record.Waits(in.dir) {
		return
	}
	in.takingUp = true
	go func() {
		for pause := firstTry; in.goesOn(); pause = min(2*pause, lastTry) {
			select {
			case <-in.ctx.Done():
			case <-time.After(pause):
			}
			if letGo, err := Hold(in.dir); err == nil {
				letGo()
			}
		}
	}()
}

func (in *Intake) goesOn() bool {
	in.mu.Lock()
	defer in.mu.Unlock()
	in.takingUp = in.ctx.Err() == nil && record.Waits(in.dir)
	return in.takingUp
}

// Called is what the piece with the key is called in the log.
func (in *Intake) Called(key string) (id string, known bool) {
	s, err := content.ReadSettings(in.dir)
	if err != nil {
		return "", false
	}
	in.atDesk.Lock()
	defer in.atDesk.Unlock()
	return in.desk.Called(in.dir, s.Log, key)
}
