package run

import (
	"time"

	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
)

// change is the wall taken by a verb that changes a person's files.
type change struct {
	dir   folder.Folder
	letGo func()
	begun bool
}

// take takes the wall's lock.
func take(dir folder.Folder) (*change, error) {
	letGo, err := Hold(dir)
	return &change{dir: dir, letGo: letGo}, err
}

// begin keeps the versions of the files as they are, before anything is
// changed; where that cannot be done nothing must be. It is called once the
// wall has been found sound: the newest version kept is what the next plan is
// held against.
func (c *change) begin() error {
	err := earlier.Keep(c.dir, time.Now())
	c.begun = err == nil
	return err
}

// end keeps the versions that the verb leaves and lets the wall go.
func (c *change) end() {
	if c.begun {
		_ = earlier.Keep(c.dir, time.Now()) // if not now, then before the next change
	}
	c.letGo()
}
