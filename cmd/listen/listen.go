// Package listen is what every page served from this machine stands behind: a
// door that is closed until somebody opens it with a key. It knows nothing of
// walls.
//
// Everything served goes through Guard. A request is answered only if it names
// the address that was opened (a page of another site cannot make its own name
// lead here: DNS rebinding), and if it carries the key as a cookie, which only
// the opened address hands out. What changes anything is a POST, and one that
// another origin sends is refused (http.CrossOriginProtection). What is
// answered may load nothing from elsewhere and may not be framed elsewhere.
package listen

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"fmt"
	"net"
	"net/http"
	"time"
)

// Policy is the content security policy of every page served.
const Policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"

// mostForm bounds the body of a request that is no upload, in bytes.
const mostForm = 4 << 20

// Door is what a listener lets in.
type Door struct {
	Cookie string   // the name of its cookie
	Key    string   // who has it may come in; "" = everybody may
	Hosts  []string // what a request may call this machine, with the port
	Closed string   // what is said to who comes without the key

	// Uploads says how many bytes the body of a request may have, if it is one
	// that brings files; 0 = it is a form. nil = all are forms.
	Uploads func(*http.Request) int64
}

// Key is a new key of 128 bits or more, in letters and digits.
func Key() string { return rand.Text() }

// Hosts lists what a browser calls a listener by: the address it listens on,
// and localhost where that is this machine alone.
func Hosts(at net.Addr) []string {
	address := at.String()
	tcp, ok := at.(*net.TCPAddr)
	if !ok || !tcp.IP.IsLoopback() {
		return []string{address}
	}
	return []string{address, fmt.Sprintf("localhost:%d", tcp.Port), fmt.Sprintf("127.0.0.1:%d", tcp.Port), fmt.Sprintf("[::1]:%d", tcp.Port)}
}

// Guard lets in what the door lets in.
func (d Door) Guard(next http.Handler) http.Handler {
	own := http.NewCrossOriginProtection()
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		secure(w.Header())
		switch {
		case !d.named(r.Host):
			http.Error(w, "This address is not served here.", http.StatusMisdirectedRequest)
		case r.Method != http.MethodGet && r.Method != http.MethodHead && r.Method != http.MethodPost:
			http.Error(w, "Only GET and POST are answered here.", http.StatusMethodNotAllowed)
		case own.Check(r) != nil:
			http.Error(w, "This was sent by a page of another site, and is refused.", http.StatusForbidden)
		case d.opens(r):
			d.open(w, r)
		case !d.knows(r):
			http.Error(w, d.Closed, http.StatusForbidden)
		default:
			d.bound(w, r)
			next.ServeHTTP(w, r)
		}
	})
}

// bound bounds what a request may send. What brings files has the time that
// they take at 100 KB a second.
func (d Door) bound(w http.ResponseWriter, r *http.Request) {
	most := int64(mostForm)
	if d.Uploads != nil && d.Uploads(r) > 0 {
		most = d.Uploads(r)
		until := time.Now().Add(time.Minute + time.Duration(most/100_000)*time.Second)
		control := http.NewResponseController(w)
		// What cannot have a deadline of its own keeps the server's.
		_ = control.SetReadDeadline(until)
		_ = control.SetWriteDeadline(until.Add(time.Minute))
	}
	r.Body = http.MaxBytesReader(w, r.Body, most)
}

func secure(h http.Header) {
	h.Set("Content-Security-Policy", Policy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

func (d Door) named(host string) bool {
	for _, known := range d.Hosts {
		if host == known {
			return true
		}
	}
	return false
}

// opens says that the request is the opened address itself.
func (d Door) opens(r *http.Request) bool {
	return d.Key != "" && r.Method == http.MethodGet && same(r.URL.Query().Get("key"), d.Key)
}

// open turns the key in the address into a cookie, and takes it out of the
// address, where it would be seen and kept.
func (d Door) open(w http.ResponseWriter, r *http.Request) {
	http.SetCookie(w, &http.Cookie{Name: d.Cookie, Value: d.Key, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	rest := r.URL.Query()
	rest.Del("key")
	to := *r.URL
	to.RawQuery, to.Host, to.Scheme = rest.Encode(), "", ""
	http.Redirect(w, r, to.RequestURI(), http.StatusSeeOther)
}

func (d Door) knows(r *http.Request) bool {
	if d.Key == "" {
		return true
	}
	c, err := r.Cookie(d.Cookie)
	return err == nil && same(c.Value, d.Key)
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// Serve serves until ctx is done; then what is being answered has two seconds.
func Serve(ctx context.Context, on net.Listener, h http.Handler) error {
	s := &http.Server{
		Handler: h, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 30 * time.Second,
		WriteTimeout: 2 * time.Minute, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 32 << 10,
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(on) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	last, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	if s.Shutdown(last) != nil {
		_ = s.Close()
	}
	return nil
}
