package door

import (
	"net"
	"net/http"
	"sync"
	"time"
)

// limits bound what one phone may send.
type limits struct {
	mu   sync.Mutex
	sent map[string]*spent
}

type spent struct {
	left float64
	at   time.Time
}

// How many rows a phone may send at once, and how many more a minute: a row is
// sent when a piece is glazed, and those that waited for the network together.
// One address may be that of all phones of a school.
const (
	phoneBurst, phoneMinute     = 60, 20
	addressBurst, addressMinute = 6000, 3000
	fillBurst, fillMinute       = 150, 60
	mostSenders                 = 20_000
)

// may says that a sender may send one more.
func (l *limits) may(now time.Time, who string, burst, minute float64) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.sent == nil || len(l.sent) > mostSenders {
		l.sent = map[string]*spent{}
	}
	s := l.sent[who]
	if s == nil {
		s = &spent{left: burst, at: now}
		l.sent[who] = s
	}
	s.left, s.at = min(burst, s.left+now.Sub(s.at).Minutes()*minute), now
	if s.left < 1 {
		return false
	}
	s.left--
	return true
}

// mayWrite holds a phone to its limits: by its own cookie, where it has one, and
// by its address.
func (d *Door) mayWrite(r *http.Request) bool {
	address, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		address = r.RemoteAddr
	}
	if c, err := r.Cookie(phoneCookie); err == nil && !d.limits.may(d.wish.Now(), "phone "+c.Value+" "+address, phoneBurst, phoneMinute) {
		return false
	}
	return d.limits.may(d.wish.Now(), "address "+address, addressBurst, addressMinute)
}

// mayFill holds whoever loads and unloads to a pace that no hand has.
func (d *Door) mayFill(r *http.Request) bool {
	address, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		address = r.RemoteAddr
	}
	return d.limits.may(d.wish.Now(), "kiln "+address, fillBurst, fillMinute)
}
