package bench

import (
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/twodip/twodip/tiles/folder"
)

// watch sees what is changed in the wall's folder, by whomever.
type watch struct{}

// look is how often the folder is looked at while a page is open.
const look = time.Second

// stamp tells one state of a file from another; "" = it is not there.
type stamp string

// changedFile is a file as it is now.
type changedFile struct {
	Name  string
	Stamp stamp
}

// run tells every open page which files changed, until ctx is done.
func (watch) run(ctx context.Context, open func() (folder.Folder, bool), tell *news) {
	tick := time.NewTicker(look)
	defer tick.Stop()
	before, of := map[string]stamp(nil), ""
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		dir, ok := open()
		if !ok || !tell.someone() {
			before = nil
			continue
		}
		after := stamps(dir)
		if before != nil && of == dir.Dir() {
			if changed := differ(before, after); len(changed) > 0 {
				tell.say("changed", changed)
			}
		}
		before, of = after, dir.Dir()
	}
}

// stamps are the size and time of every file that a person, or another
// program, may change.
func stamps(dir folder.Folder) map[string]stamp {
	out := map[string]stamp{}
	note := func(name string) {
		if info, err := dir.Info(name); err == nil {
			out[name] = stamp(strconv.FormatInt(info.Size(), 36) + "-" + strconv.FormatInt(info.ModTime().UnixNano(), 36))
		}
	}
	note("wall.yaml")
	for _, sub := range []string{"content", "tiles"} {
		names, err := dir.Names(sub)
		if err != nil {
			continue
		}
		for _, name := range names {
			if !strings.HasPrefix(name, ".") {
				note(sub + "/" + name)
			}
		}
	}
	return out
}

func differ(before, after map[string]stamp) []changedFile {
	var out []changedFile
	for name, s := range after {
		if before[name] != s {
			out = append(out, changedFile{name, s})
		}
	}
	for name := range before {
		if _, still := after[name]; !still {
			out = append(out, changedFile{Name: name})
		}
	}
	slices.SortFunc(out, func(a, b changedFile) int { return strings.Compare(a.Name, b.Name) })
	return out
}
