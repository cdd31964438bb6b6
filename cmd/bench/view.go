package bench

import (
	"context"
	"io/fs"
	"net"
	"net/http"
	"strings"
	"sync"

	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/tiles/folder"
)

// view serves the built site on a port of its own, as any web host would. A
// theme of the wall may hold scripts from anybody: there they are another
// origin than the bench, which neither they nor their frames can reach. Its
// addresses begin with a key, in place of a cookie.
type view struct {
	mu   sync.Mutex
	dir  folder.Folder
	base string // "http://127.0.0.1:4711/KEY/"
}

// begin listens until ctx is done.
func (v *view) begin(ctx context.Context) error {
	on, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	key := listen.Key()
	v.base = "http://" + on.Addr().String() + "/" + key + "/"
	hosts := listen.Hosts(on.Addr())
	go func() {
		_ = listen.Serve(ctx, on, http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			rest, knows := strings.CutPrefix(r.URL.Path, "/"+key+"/")
			if !knows || !hasHost(hosts, r.Host) || r.Method != http.MethodGet && r.Method != http.MethodHead {
				http.Error(w, "Open the site from the bench.", http.StatusForbidden)
				return
			}
			v.serve(w, r, rest)
		}))
	}()
	return nil
}

func hasHost(hosts []string, host string) bool {
	for _, known := range hosts {
		if known == host {
			return true
		}
	}
	return false
}

// at is the address of a page of the wall's built site.
func (v *view) at(dir folder.Folder, page string) string {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.dir = dir
	return v.base + page
}

func (v *view) serve(w http.ResponseWriter, r *http.Request, name string) {
	v.mu.Lock()
	dir := v.dir
	v.mu.Unlock()
	site := dir.Made("build/site")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	if site == nil || !fs.ValidPath(name) {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("X-Content-Type-Options", "nosniff")
	w.Header().Set("Referrer-Policy", "no-referrer")
	http.ServeFileFS(w, r, site, name)
}
