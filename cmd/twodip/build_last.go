package main

import (
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/unchanged"
)

// lastBuild is what is kept of the last build, to know at once that nothing
// has changed since.
type lastBuild struct {
	*app
	files  *unchanged.Files
	dir    string // of the site
	file   string
	inputs string // the hash of what people write and measure reads, when this build began
}

// lastKept is the file.
type lastKept struct {
	Stamp string `json:"stamp"` // the hash of everything the site was made from
	Built built  `json:"built"`
}

func (a *app) lastBuild(teacher bool) *lastBuild {
	l := &lastBuild{app: a, dir: filepath.Join(a.wall, "build", siteFolder(teacher))}
	if _, err := os.Stat(filepath.Join(a.wall, content.SettingsFile)); err != nil {
		return l // reading the wall will say what it lacks
	}
	l.file = filepath.Join(a.wall, filepath.FromSlash(cacheFolder), siteFolder(teacher)+".json")
	l.files = a.knownFiles()
	l.inputs = l.stampInputs()
	return l
}

// stands says that the site which is there is the one that would be made, and
// what was said of it.
func (l *lastBuild) stands() (built, bool) {
	data, err := os.ReadFile(l.file)
	var last lastKept
	if err != nil || json.Unmarshal(data, &last) != nil || last.Stamp == "" || last.Stamp != l.stamp() {
		return built{}, false
	}
	if !site.Stands(l.dir, filepath.Dir(l.file)) {
		return built{}, false
	}
	last.Built.Made = 0
	last.Built.Open = filepath.ToSlash(filepath.Join(l.dir, "index.html"))
	_ = l.files.Save()
	return last.Built, true
}

// forget makes sure that a build which is stopped half-way is not taken for
// the last one.
func (l *lastBuild) forget() error {
	if err := os.Remove(l.file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return record.Explain(l.dir, err) // no site can be made there
	}
	return nil
}

// keep keeps what was built. Where something was changed meanwhile, or a
// picture could not be had, or where nothing can be written, the next build
// looks at everything.
func (l *lastBuild) keep(b built, whole bool) {
	stamp := l.stamp()
	same := l.inputs == l.stampInputs()
	_ = l.files.Save()
	if !whole || stamp == "" || !same {
		return
	}
	if data, err := json.MarshalIndent(lastKept{stamp, b}, "", "  "); err == nil {
		_ = record.WriteBytes(l.file, append(data, '\n'))
	}
}

// stamp is the hash of everything the site is made from; "" = it cannot be told.
func (l *lastBuild) stamp() string {
	pictures, ok := l.below("build/pictures", nil)
	if version := l.version(); ok && version != "" && l.inputs != "" {
		return unchanged.Sum([]byte(version + "\n" + l.inputs + "\n" + pictures))
	}
	return ""
}

// stampInputs is the hash of every file of the wall but its photos and what is
// made: more than a site can show, so that nothing it may show is missed.
func (l *lastBuild) stampInputs() string {
	inputs, ok := l.below(".", []string{"build", ".git", photosFolder})
	if !ok {
		return ""
	}
	return unchanged.Sum([]byte(inputs))
}

// below lists the files below a folder of the wall with their hashes, in order
// of name. It cannot tell where a folder is a link to another place.
func (l *lastBuild) below(folder string, but []string) (list string, ok bool) {
	var b strings.Builder
	root := filepath.Join(l.wall, filepath.FromSlash(folder))
	if _, err := os.Stat(root); errors.Is(err, fs.ErrNotExist) {
		return "", true
	}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		rel, relErr := filepath.Rel(l.wall, path)
		if err = errors.Join(err, relErr); err != nil {
			return err
		}
		name := filepath.ToSlash(rel)
		switch {
		case d.IsDir() && slices.Contains(but, name):
			return fs.SkipDir
		case d.IsDir() || name == record.LockFile:
			return nil
		}
		sum, err := l.files.Sum(name)
		b.WriteString(sum + " " + strconv.Quote(name) + "\n")
		return err
	})
	return b.String(), err == nil
}

// sumOf is the hash of a picture's bytes.
func (l *lastBuild) sumOf(file string) (string, error) {
	rel, err := filepath.Rel(l.wall, file)
	if err != nil {
		return "", err
	}
	return l.files.Sum(filepath.ToSlash(rel))
}
