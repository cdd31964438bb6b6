package bench

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles/folder"
)

// mostUpload bounds what is sent at once with files, in bytes: sixty photos of
// 16 MB, or fewer of up to folder.MostPhoto each.
const mostUpload = 1 << 30

// room is a page of the bench with what is done on it.
type room struct {
	path string // "/glazes"
	name string // as it stands in the list of pages
	file string // its template, without the ending
	wall bool   // it needs a wall that is open
	show func(*Bench, *asked) (any, error)
	does map[string]does     // by the rest of the path: POST /glazes/save
	more map[string]moreWays // GET /sheets/picture: what is no page
}

// does is what a POST does: it returns where to go next, "" = to the room.
type does func(*Bench, *asked) (to string, err error)

// again is the error of a form that is shown once more, with what was typed in
// it and what is wrong beside its field.
type again struct{ page any }

func (again) Error() string { return "the form is shown again" }

// moreWays answers a GET with something that is no page.
type moreWays func(*Bench, *asked) error

// asked is one request, and the wall that it is about.
type asked struct {
	*http.Request
	w    http.ResponseWriter
	dir  folder.Folder
	seen map[string]stamp // the wall's files before anything was read of them
	work workNow          // the long work as it was before: what has ended is all on the page
}

// rooms are the pages, in the order of the work.
func rooms() []room {
	return []room{
		startRoom(), glazesRoom(), studioRoom(), planRoom(), sheetsRoom(), photosRoom(),
		recordsRoom(), piecesRoom(), faultsRoom(), driftRoom(), siteRoom(), doorRoom(),
	}
}

// uploads says how much a request that brings files may send.
func uploads(r *http.Request) int64 {
	if r.Method == http.MethodPost && slices.Contains([]string{"/photographs/bring", "/glazes/bring", "/glazes/read", "/records/bring"}, r.URL.Path) {
		return mostUpload
	}
	return 0
}

func (b *Bench) routes(end func()) http.Handler {
	mux := http.NewServeMux()
	for _, r := range rooms() {
		mux.HandleFunc("GET "+exact(r.path), b.answer(r, func(a *asked) error { return b.showRoom(a, r) }))
		for name, do := range r.does {
			mux.HandleFunc("POST "+exact(strings.TrimSuffix(r.path, "/")+"/"+name), b.answer(r, func(a *asked) error { return b.doIn(a, r, do) }))
			if r.more[name] == nil { // the address of a form shown again, typed or kept
				mux.Handle("GET "+exact(strings.TrimSuffix(r.path, "/")+"/"+name), http.RedirectHandler(r.path, http.StatusSeeOther))
			}
		}
		for name, more := range r.more {
			mux.HandleFunc("GET "+strings.TrimSuffix(r.path, "/")+"/"+name, b.answer(r, func(a *asked) error { return more(b, a) }))
		}
	}
	mux.HandleFunc("GET /news", b.news)
	mux.HandleFunc("POST /work/stop", b.answer(room{path: "/"}, func(a *asked) error {
		b.work.stop()
		return back(a, "")
	}))
	mux.HandleFunc("POST /end", func(w http.ResponseWriter, r *http.Request) {
		b.goodbye(w)
		end()
	})
	mux.HandleFunc("GET /look/{file}", b.pages.file)
	mux.HandleFunc("/", b.answer(room{path: "/"}, func(a *asked) error {
		return b.refuse(a, http.StatusNotFound, errors.New("there is no such page on the bench"))
	}))
	return mux
}

func exact(path string) string {
	if path == "/" {
		return "/{$}"
	}
	return path
}

// answer runs what answers a request; where no wall is open that the room
// needs, the way leads to the start.
func (b *Bench) answer(r room, do func(*asked) error) http.HandlerFunc {
	return func(w http.ResponseWriter, req *http.Request) {
		dir, open := b.folder()
		if r.wall && !open {
			http.Redirect(w, req, "/", http.StatusSeeOther)
			return
		}
		a := &asked{Request: req, w: w, dir: dir, work: b.work.now()}
		if open {
			a.seen = stamps(dir)
		}
		if err := do(a); err != nil {
			// Nobody is there to be told when the refusal cannot be written.
			_ = b.refuse(a, http.StatusUnprocessableEntity, err)
		}
	}
}

func (b *Bench) showRoom(a *asked, r room) error {
	page, err := r.show(b, a)
	if err != nil {
		return err
	}
	return b.render(a, http.StatusOK, r, page)
}

func (b *Bench) doIn(a *asked, r room, do does) error {
	to, err := do(b, a)
	var form again
	switch {
	case errors.Is(err, errAnswered):
		return nil
	case errors.As(err, &form):
		return b.render(a, http.StatusUnprocessableEntity, r, form.page)
	case err != nil:
		return err
	}
	if to == "" {
		to = r.path
	}
	return back(a, to)
}

// back leads on to a page after something was done: to the one named, or to
// where the person came from.
func back(a *asked, to string) error {
	if to == "" {
		to = "/"
		if from := a.FormValue("from"); strings.HasPrefix(from, "/") && !strings.HasPrefix(from, "//") && !strings.Contains(from, "\\") {
			to = from
		}
	}
	http.Redirect(a.w, a.Request, to, http.StatusSeeOther)
	return nil
}
