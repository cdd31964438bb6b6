package produce

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/unchanged"
)

// lastBuild is what is kept of the last build, to know at once that nothing
// has changed since.
type lastBuild struct {
	wall    folder.Folder
	program string
	files   *unchanged.Files
	dir     string // of the site, as the system names it
	file    string // of the wall
	inputs  string // the hash of what people write and measure reads, when this build began
}

// mostKept bounds what was said of a build, warnings and all.
const mostKept = 16 << 20

// lastKept is the file.
type lastKept struct {
	Stamp string `json:"stamp"` // the hash of everything the site was made from
	Built Built  `json:"built"`
}

func newLastBuild(wall folder.Folder, wish SiteWish) *lastBuild {
	name := siteFolder(wish.Teacher)
	l := &lastBuild{wall: wall, program: wish.Program, dir: wall.Path("build/" + name), file: run.CacheFolder + "/" + name + ".json"}
	l.files = run.KnownFiles(wall)
	l.inputs = l.stampInputs()
	return l
}

// stands says that the site which is there is the one that would be made, and
// what was said of it.
func (l *lastBuild) stands() (Built, bool) {
	data, err := l.wall.Read(l.file, mostKept)
	var last lastKept
	if err != nil || json.Unmarshal(data, &last) != nil || last.Stamp == "" || last.Stamp != l.stamp() {
		return Built{}, false
	}
	if !site.Stands(l.dir, l.wall.Path(run.CacheFolder)) {
		return Built{}, false
	}
	last.Built.Made = 0
	last.Built.Open = filepath.ToSlash(filepath.Join(l.dir, "index.html"))
	_ = l.files.Save()
	return last.Built, true
}

// forget makes sure that a build which is stopped half-way is not taken for
// the last one.
func (l *lastBuild) forget() error {
	if err := l.wall.Remove(l.file); err != nil {
		return folder.Explain(l.dir, err) // no site can be made there
	}
	return nil
}

// keep keeps what was built. Where something was changed meanwhile, or a
// picture could not be had, or where nothing can be written, the next build
// looks at everything.
func (l *lastBuild) keep(b Built, whole bool) {
	stamp := l.stamp()
	same := l.inputs == l.stampInputs()
	_ = l.files.Save()
	if !whole || stamp == "" || !same {
		return
	}
	if data, err := json.MarshalIndent(lastKept{stamp, b}, "", "  "); err == nil {
		_ = l.wall.WriteBytes(l.file, append(data, '\n'))
	}
}

// stamp is the hash of everything the site is made from; "" = it cannot be told.
func (l *lastBuild) stamp() string {
	pictures, ok := l.below("build/pictures", nil)
	if ok && l.program != "" && l.inputs != "" {
		return unchanged.Sum([]byte(l.program + "\n" + l.inputs + "\n" + pictures))
	}
	return ""
}

// stampInputs is the hash of every file of the wall but its photos and what is
// made: more than a site can show, so that nothing it may show is missed.
func (l *lastBuild) stampInputs() string {
	inputs, ok := l.below(".", []string{"build", earlier.Folder, ".git", folder.Photos, folder.LockFile, folder.DeskFile})
	if !ok {
		return ""
	}
	return unchanged.Sum([]byte(inputs))
}

// below lists the files below a folder of the wall with their hashes, in order
// of name. It cannot tell where a folder is a link to another place.
func (l *lastBuild) below(sub string, but []string) (list string, ok bool) {
	var b strings.Builder
	skip := func(name string) bool { return slices.Contains(but, name) }
	err := l.wall.Walk(sub, skip, func(name string) error {
		sum, err := l.shown(name)
		b.WriteString(sum + " " + strconv.Quote(name) + "\n")
		return err
	})
	return b.String(), err == nil
}

// shown is the hash of a file that the site may show. One larger than any
// picture may be, a film among the pages, is never shown: that it is there is
// all that counts.
func (l *lastBuild) shown(name string) (string, error) {
	if info, err := l.wall.Info(name); err == nil && info.Size() > folder.MostPhoto {
		return "large", nil
	}
	return l.files.Sum(name)
}

// sumOf is the hash of a picture's bytes.
func (l *lastBuild) sumOf(file string) (string, error) {
	rel, err := filepath.Rel(l.wall.Dir(), file)
	if err != nil {
		return "", err
	}
	return l.files.Sum(filepath.ToSlash(rel))
}
