package bench

import (
	"net/url"
	"strconv"
	"strings"
	"sync"
)

// note is what was done, said once on the page that follows.
type note struct {
	Said []string
	Next *link // what to do next; nil = the person knows
}

// notes keeps the last notes until their page is shown: what stands in an
// address could have been written by anybody.
type notes struct {
	mu   sync.Mutex
	last int
	kept map[string]note

	brought brought // the table that waits for its headings
}

// leave keeps a note, and returns the address of a page that shows it.
func (n *notes) leave(page string, said note) string {
	n.mu.Lock()
	defer n.mu.Unlock()
	if n.kept == nil || len(n.kept) > 100 {
		n.kept = map[string]note{}
	}
	n.last++
	id := strconv.Itoa(n.last)
	n.kept[id] = said
	sep := "?"
	if strings.Contains(page, "?") {
		sep = "&"
	}
	return page + sep + "note=" + url.QueryEscape(id)
}

// take is the note of that name; it stays for who loads the page again.
func (n *notes) take(id string) *note {
	n.mu.Lock()
	defer n.mu.Unlock()
	if said, ok := n.kept[id]; ok {
		return &said
	}
	return nil
}
