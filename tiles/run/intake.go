package run

import (
	"sync"
	"time"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Intake takes pieces from many phones into the log of one wall. Those that
// come while a row is being written are written together with the next: each
// is on the disk before its phone is told.
type Intake struct {
	dir folder.Folder

	atDesk sync.Mutex
	desk   record.Desk

	mu      sync.Mutex
	waiting []waiting
	writing bool
	kept    time.Time
}

type waiting struct {
	arrival record.Arrival
	done    chan taken
}

type taken struct {
	called string
	err    error
}

// NewIntake is the intake of a wall.
func NewIntake(dir folder.Folder) *Intake { return &Intake{dir: dir} }

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

// patience is how long a phone waits while another command has the wall.
const patience = 20 * time.Second

func (in *Intake) take(group []waiting) ([]string, error) {
	letGo, err := lockIn(in.dir, patience)
	if err != nil {
		return nil, err
	}
	defer letGo()
	s, err := content.ReadSettings(in.dir)
	if err != nil {
		return nil, err
	}
	// Nothing that was there is changed, so that a version now and then is enough.
	if time.Since(in.kept) > nowAndThen {
		if err := earlier.Keep(in.dir, time.Now(), record.LogFile); err != nil {
			return nil, err
		}
		in.kept = time.Now()
	}
	arrived := make([]record.Arrival, len(group))
	for i, w := range group {
		arrived[i] = w.arrival
	}
	in.atDesk.Lock()
	defer in.atDesk.Unlock()
	return in.desk.Take(in.dir, s.Log, arrived)
}

// Called is what the piece with the key is called in the log.
func (in *Intake) Called(key string) (id string, known bool) {
	s, err := content.ReadSettings(in.dir)
	if err != nil {
		return "", false
	}
	in.atDesk.Lock()
	defer in.atDesk.Unlock()
	// Taking nothing reads the log.
	if _, err := in.desk.Take(in.dir, s.Log, nil); err != nil {
		return "", false
	}
	return in.desk.Called(key)
}

// lockIn takes the wall's lock, waiting for it where another has it.
func lockIn(dir folder.Folder, patience time.Duration) (letGo func(), err error) {
	until := time.Now().Add(patience)
	for {
		letGo, err = dir.Lock()
		if err == nil || time.Now().After(until) {
			return letGo, err
		}
		time.Sleep(20 * time.Millisecond)
	}
}
