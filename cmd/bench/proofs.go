package bench

import (
	"context"
	"fmt"
	"sync"
	"time"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// proofs are the sheets as they would be printed, drawn once for as long as
// the wall's files stay as they are.
type proofs struct {
	mu   sync.Mutex
	last *drawing
}

// drawing is one time of drawing all sheets.
type drawing struct {
	key  string
	stop context.CancelFunc
	done chan struct{}

	mu   sync.Mutex
	by   map[string]proof
	err  error // why nothing can be drawn
	over bool
}

// proof is a sheet with its pages to look at.
type proof struct {
	produce.Proof
	pages *sheet.Proof
}

// mostWait is how long a page waits for sheets that are being drawn.
const mostWait = 600 * time.Millisecond

// of is the drawing of the wall as its files are now; it may still go on.
func (p *proofs) of(dir folder.Folder, wish produce.PrintWish) *drawing {
	key := fmt.Sprint(dir.Dir(), wish.Date, wish.New, wish.Start, stamps(dir))
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.last != nil && p.last.key == key {
		return p.last
	}
	if p.last != nil {
		p.last.stop()
	}
	ctx, stop := context.WithCancel(context.Background())
	d := &drawing{key: key, stop: stop, done: make(chan struct{}), by: map[string]proof{}}
	p.last = d
	go func() {
		defer close(d.done)
		defer stop()
		err := produce.Proofs(ctx, dir, wish, d.take)
		d.mu.Lock()
		d.err, d.over = err, true
		d.mu.Unlock()
	}()
	return d
}

// wait waits until all sheets are drawn, for so long at the most.
func (d *drawing) wait(most time.Duration) {
	select {
	case <-d.done:
	case <-time.After(most):
	}
}

func (d *drawing) take(drawn produce.Proof) {
	p := proof{Proof: drawn}
	if drawn.PDF != nil && !drawn.Empty && drawn.Err == nil {
		p.pages, p.Err = sheet.ReadProof(drawn.PDF)
	}
	d.mu.Lock()
	d.by[drawn.Name] = p
	d.mu.Unlock()
}

// sheet is one sheet, as soon as it is drawn.
func (d *drawing) sheet(ctx context.Context, name string) (proof, error) {
	for {
		d.mu.Lock()
		p, ok := d.by[name]
		over, err := d.over, d.err
		d.mu.Unlock()
		switch {
		case ok && p.pages != nil:
			return p, nil
		case ok || over:
			if err == nil {
				err = tiles.Problem{File: "the sheet " + name, What: "has no page to show"}
			}
			return p, err
		}
		select {
		case <-ctx.Done():
			return p, ctx.Err()
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// now is what is drawn so far.
func (d *drawing) now() (by map[string]proof, over bool, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	by = map[string]proof{}
	for name, p := range d.by {
		by[name] = p
	}
	return by, d.over, d.err
}
