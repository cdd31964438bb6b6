package run

import (
	"errors"
	"sync"
	"time"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Hold takes the wall's lock for a verb. What phones sent while another had it is
// taken up into the log, and what they send meanwhile before it is let go.
func Hold(dir folder.Folder) (letGo func(), err error) {
	release, err := dir.Lock()
	if err != nil {
		return func() {}, err
	}
	fold(dir)
	var once sync.Once // a second letting go no longer has the lock
	return func() {
		once.Do(func() {
			fold(dir)
			release()
		})
	}, nil
}

// holdSoon is Hold that waits a while where another has the wall.
func holdSoon(dir folder.Folder, patience time.Duration) (letGo func(), err error) {
	for until := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
		letGo, err = Hold(dir)
		if err == nil || time.Now().After(until) {
			return letGo, err
		}
	}
}

// fold takes up what waits. Where the log cannot be read it goes on waiting, and
// whoever reads the log is told why.
func fold(dir folder.Folder) {
	if !record.Waits(dir) {
		return
	}
	s, err := content.ReadSettings(dir)
	if err != nil {
		return
	}
	_ = atDesk(dir, func() error {
		if err := keepLog(dir); err != nil {
			return err
		}
		return record.Fold(dir, s.Log)
	})
}

// deskPatience is how long the desk may be waited for: who has it writes rows
// down, and lets it go.
const deskPatience = 10 * time.Second

// atDesk does something at the desk. Where the drive cannot lock files, the wall
// itself, which must be held then, has to do; and where no door was ever opened,
// there is no desk.
func atDesk(dir folder.Folder, do func() error) error {
	if !dir.Has(folder.DeskFile) {
		return do()
	}
	release, err := dir.Desk(deskPatience)
	switch {
	case errors.Is(err, folder.ErrNoLocks):
		return do()
	case err != nil:
		return err
	}
	defer release()
	return do()
}

// nowAndThen is how often a version is kept where nothing that a person wrote
// changes: a hundred taps at the kiln must not push out the versions of the day.
const nowAndThen = 10 * time.Minute

// keepLog keeps a version of the log now and then.
func keepLog(dir folder.Folder) error {
	versions, err := earlier.List(dir)
	if err != nil {
		return err
	}
	if of := earlier.Of(versions, record.LogFile); len(of) > 0 && time.Since(of[0].Kept) <= nowAndThen {
		return nil
	}
	return earlier.Keep(dir, time.Now(), record.LogFile)
}
