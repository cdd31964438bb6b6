// Package bench is the whole job on pages in a browser, for people without a
// terminal: a front over the verbs that the commands stand on. It holds words,
// forms and pages; no rule of the trade, no file's format, and nothing that the
// wall's files do not hold.
//
// A page is one file here (glazes.go) and one template of the same name in
// themes/bench. It is a GET that shows and POSTs that change; a POST answers
// with a redirect to a page, so that nothing is sent twice. Every page works
// without script; the script adds what moves: progress, and a note when a file
// was changed elsewhere. Work that takes long is done by one hand at a time
// (work.go), and goes on when the page is left.
package bench

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"sync"
	"time"

	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/tiles/folder"
)

// Wish is how the bench is wanted.
type Wish struct {
	Wall    string               // the wall's folder; "" = the person chooses
	Listen  string               // address and port; port 0 = a free one
	Door    string               // opens the studio's door there from the start; "" = the person does
	Out     io.Writer            // told the addresses, one a line
	Open    func(address string) // opens it in a browser; nil = nobody does
	Program string               // tells this program from another, for what is made again
	Idle    time.Duration        // ends when no page was open for so long; 0 = never
}

// Bench is one running bench.
type Bench struct {
	program string
	pages   pages
	work    work
	notes   notes
	lately  lately
	view    view
	proofs  proofs
	reading reading
	alive   alive
	door    studioDoor

	mu   sync.Mutex
	wall string // "" = none is open
}

// Serve serves the bench until ctx is done or nobody has looked at it for the
// idle time. A bench of the same wall that runs already is shown instead.
func Serve(ctx context.Context, wish Wish) error {
	b := &Bench{program: wish.Program, wall: wish.Wall, lately: openLately()}
	if address, runs := b.lately.running(wish.Wall); runs {
		if wish.Door != "" {
			return errors.New("the bench of this wall runs already: open the studio’s door on its page, or close the bench first")
		}
		return wish.shown(address)
	}
	if err := b.pages.load(); err != nil {
		return err
	}
	on, err := net.Listen("tcp", wish.Listen)
	if err != nil {
		return fmt.Errorf("the bench cannot listen on %s: %w; choose another port, or 127.0.0.1:0 for any that is free", wish.Listen, err)
	}
	ctx, end := context.WithCancel(ctx)
	defer end()
	key := listen.Key()
	port := on.Addr().(*net.TCPAddr).Port
	door := listen.Door{Cookie: fmt.Sprintf("twodip-%d", port), Key: key, Hosts: listen.Hosts(on.Addr()), Uploads: uploads,
		Closed: "The bench is closed to this browser. Open the address that it said when it was started; it ends with ?key= and a key."}
	address := fmt.Sprintf("http://%s/?key=%s", on.Addr(), key)
	if err := b.view.begin(ctx); err != nil {
		return err
	}
	if err := wish.shown(address); err != nil {
		return err
	}
	b.door.ctx = ctx
	defer b.door.end()
	if wish.Door != "" {
		if err := b.openFromStart(wish); err != nil {
			return err
		}
	}
	b.lately.runs(wish.Wall, address)
	defer b.lately.ended(address)
	go watch{}.run(ctx, b.folder, &b.work.tell)
	go b.alive.endIdle(ctx, wish.Idle, b.inUse, end)
	err = listen.Serve(ctx, on, door.Guard(b.alive.seen(b.routes(end))))
	b.work.stop()
	b.work.wait()
	return err
}

// shown says the address and opens it.
func (wish Wish) shown(address string) error {
	if _, err := fmt.Fprintln(wish.Out, address); err != nil {
		return err
	}
	if wish.Open != nil {
		wish.Open(address)
	}
	return nil
}

// folder is the wall that is open; ok = one is.
func (b *Bench) folder() (dir folder.Folder, ok bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return folder.At(b.wall), b.wall != ""
}

// openWall makes a wall the one that is open.
func (b *Bench) openWall(dir string) error {
	if _, open := b.door.open(); open {
		return errors.New("the studio’s door is open on the wall that is open: close it first")
	}
	if b.work.busy() {
		return errors.New("the bench is still at work on the wall that is open: wait until it is done, or stop it")
	}
	b.mu.Lock()
	b.wall = dir
	b.mu.Unlock()
	b.lately.opened(dir)
	return nil
}

// inUse says that the bench works, or that its door is open for phones.
func (b *Bench) inUse() bool {
	_, open := b.door.open()
	return open || b.work.busy()
}

// alive ends a bench that nobody looks at any more.
type alive struct {
	mu   sync.Mutex
	last time.Time
}

func (a *alive) touch() {
	a.mu.Lock()
	a.last = time.Now()
	a.mu.Unlock()
}

// seen notes that somebody looked. What a page holds open for its news counts
// as long as it is open: news is told every few seconds.
func (a *alive) seen(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		a.touch()
		next.ServeHTTP(w, r)
	})
}

func (a *alive) endIdle(ctx context.Context, after time.Duration, busy func() bool, end func()) {
	if after == 0 {
		return
	}
	a.touch()
	for tick := time.NewTicker(min(after/4, 10*time.Second)); ; {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		a.mu.Lock()
		idle := time.Since(a.last)
		a.mu.Unlock()
		if idle > after && !busy() {
			end()
			return
		}
	}
}

// goodbye is the last page.
func (b *Bench) goodbye(w http.ResponseWriter) {
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_ = b.pages.byName["goodbye"].ExecuteTemplate(w, "layout.html", frame{Title: "Closed"})
}
