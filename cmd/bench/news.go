package bench

import (
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"
)

// news is told to every page that is open, as server-sent events (WHATWG HTML,
// section 9.2).
type news struct {
	mu      sync.Mutex
	readers map[chan item]bool
}

type item struct {
	name string
	data []byte
}

// say tells all pages; one that does not listen loses what it could not take.
func (n *news) say(name string, what any) {
	data, err := json.Marshal(what)
	if err != nil {
		return
	}
	n.mu.Lock()
	defer n.mu.Unlock()
	for reader := range n.readers {
		select {
		case reader <- item{name, data}:
		default:
		}
	}
}

func (n *news) subscribe() (reader chan item, leave func()) {
	reader = make(chan item, 256)
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.readers == nil {
		n.readers = map[chan item]bool{}
	}
	n.readers[reader] = true
	return reader, func() {
		n.mu.Lock()
		defer n.mu.Unlock()
		delete(n.readers, reader)
	}
}

// someone says that a page is open.
func (n *news) someone() bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	return len(n.readers) > 0
}

// pulse is how often a page hears from the bench, so that both know the other
// is there.
const pulse = 5 * time.Second

// news answers a page for as long as it is open.
func (b *Bench) news(w http.ResponseWriter, r *http.Request) {
	control := http.NewResponseController(w)
	if control.SetWriteDeadline(time.Time{}) != nil || control.SetReadDeadline(time.Time{}) != nil {
		return
	}
	reader, leave := b.work.tell.subscribe()
	defer leave()
	w.Header().Set("Content-Type", "text/event-stream")
	tick := time.NewTicker(pulse)
	defer tick.Stop()
	write := func(name string, data []byte) bool {
		_, err := fmt.Fprintf(w, "event: %s\ndata: %s\n\n", name, data)
		return err == nil && control.Flush() == nil
	}
	now, err := json.Marshal(b.work.now())
	if err != nil || !write("work", now) {
		return
	}
	for {
		select {
		case <-r.Context().Done():
			return
		case it := <-reader:
			if !write(it.name, it.data) {
				return
			}
		case <-tick.C:
			b.alive.touch()
			if !write("pulse", []byte("{}")) {
				return
			}
		}
	}
}
