package bench

import (
	"bytes"
	"errors"
	"fmt"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"strings"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// frame is what every page shows around its own.
type frame struct {
	Title  string
	Here   string // the room's path
	Reads  string // files that the page shows, each with its stamp: it is stale when one changes
	Script string // the page's own script, "" = none
	Wall   string // the wall's name; "" = none is open
	Files  string // where the wall's files are
	Rooms  []link
	Note   *note   // what was just done
	Work   workNow // the long work that is going on, or has just ended
	Typed  bool    // it is a form shown again: what is in it is kept nowhere else
	Page   any     // the room's own
}

type link struct {
	Href, Text string
	Current    bool
}

// reader is a page that says which files it shows.
type reader interface{ Reads() []string }

// scripted is a page with a script of its own.
type scripted interface{ Script() string }

// pages are the templates, parsed once.
type pages struct {
	byName map[string]*template.Template
	files  fs.FS
	style  []byte
}

func (p *pages) load() error {
	p.files, p.byName = themes.Bench(), map[string]*template.Template{}
	names, err := fs.Glob(p.files, "*.html")
	if err != nil {
		return err
	}
	base, err := template.New("layout.html").ParseFS(p.files, "layout.html", "parts.html")
	if err != nil {
		return err
	}
	if base, err = base.ParseFS(themes.Door(), "faults.html"); err != nil { // a fault is known by its picture there as here
		return err
	}
	for _, name := range names {
		if name == "layout.html" || name == "parts.html" {
			continue
		}
		page, err := base.Clone()
		if err != nil {
			return err
		}
		if page, err = page.ParseFS(p.files, name); err != nil {
			return err
		}
		p.byName[strings.TrimSuffix(name, ".html")] = page
	}
	return p.loadStyle()
}

// loadStyle joins the site's room and parts with what the bench adds.
func (p *pages) loadStyle() error {
	var all bytes.Buffer
	for _, of := range []struct {
		fs   fs.FS
		name string
	}{{themes.Built(), "style/1-room.css"}, {themes.Built(), "style/2-parts.css"}, {p.files, "bench.css"}} {
		text, err := fs.ReadFile(of.fs, of.name)
		if err != nil {
			return err
		}
		all.Write(text)
	}
	p.style = all.Bytes()
	return nil
}

// file serves the style and the scripts.
func (p *pages) file(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("file")
	switch path.Ext(name) {
	case ".css":
		w.Header().Set("Content-Type", "text/css; charset=utf-8")
		_, _ = w.Write(p.style)
	case ".js":
		text, err := fs.ReadFile(p.files, name)
		if err != nil {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
		_, _ = w.Write(text)
	default:
		http.NotFound(w, r)
	}
}

// render writes a page whole, or an error and nothing of it.
func (b *Bench) render(a *asked, status int, r room, page any) error {
	f := frame{Title: r.name, Here: r.path, Work: a.work, Page: page, Typed: status == http.StatusUnprocessableEntity && r.path != ""}
	if page, ok := page.(reader); ok {
		f.Reads = a.stamped(page.Reads())
	}
	if page, ok := page.(scripted); ok {
		f.Script = page.Script()
	}
	f.Note = b.notes.take(a.FormValue("note"))
	if dir, open := b.folder(); open {
		f.Wall, f.Files = wallName(dir), dir.Dir()
		for _, of := range rooms() {
			f.Rooms = append(f.Rooms, link{Href: of.path, Text: of.name, Current: of.path == r.path})
		}
	}
	var out bytes.Buffer
	if err := b.pages.byName[r.file].ExecuteTemplate(&out, "layout.html", f); err != nil {
		return fmt.Errorf("the page cannot be shown: %w", err)
	}
	a.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	a.w.WriteHeader(status)
	_, err := a.w.Write(out.Bytes())
	return err
}

// stamped are files as the page shows them, parted by spaces. What was changed
// before, by the person's own last step, makes no page stale.
func (a *asked) stamped(files []string) string {
	var out []string
	for _, name := range files {
		out = append(out, name+"@"+string(a.seen[name]))
	}
	return strings.Join(out, " ")
}

// refusal is the page that says what is wrong.
type refusal struct {
	Wrong []string
	Stale *staleFile
	From  string
}

// staleFile is a file as it is now beside what the person sent.
type staleFile struct {
	File, Now string
	Yours     []field
}

type field struct{ Name, Value string }

// refuse says what is wrong, one sentence a problem; nothing was written.
func (b *Bench) refuse(a *asked, status int, err error) error {
	page := refusal{Wrong: sentences(err), From: a.Header.Get("Referer")}
	if i := strings.Index(page.From, a.Host); i >= 0 {
		page.From = page.From[i+len(a.Host):]
	} else {
		page.From = "/"
	}
	var gone run.ErrStale
	var typed stale
	var tooLarge *http.MaxBytesError
	switch {
	case errors.As(err, &typed):
		status, page.Stale = http.StatusConflict, &staleFile{File: typed.File, Now: string(typed.Now), Yours: typed.yours}
	case errors.As(err, &gone):
		status, page.Stale = http.StatusConflict, &staleFile{File: gone.File, Now: string(gone.Now), Yours: sent(a)}
	case errors.As(err, &tooLarge):
		status = http.StatusRequestEntityTooLarge
		page.Wrong = []string{fmt.Sprintf("this is more than the %d MB that can be sent at once: send fewer files at a time", tooLarge.Limit>>20)}
	}
	return b.render(a, status, room{path: "", name: "Not done", file: "refused"}, page)
}

// sent lists what a person had typed, so that none of it is lost.
func sent(a *asked) []field {
	var out []field
	for name, values := range a.PostForm {
		for _, v := range values {
			if v != "" && !strings.HasPrefix(name, "seen") {
				out = append(out, field{name, v})
			}
		}
	}
	return out
}

// sentences are the problems of an error, each as a sentence.
func sentences(err error) []string {
	var ps tiles.Problems
	var one tiles.Problem
	err = folder.ExplainAny(err)
	switch {
	case errors.As(err, &ps):
	case errors.As(err, &one):
		ps = tiles.Problems{one}
	default:
		return []string{err.Error()}
	}
	var out []string
	for _, p := range ps {
		out = append(out, p.OnPage().Error())
	}
	return out
}
