package door

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"html/template"
	"io/fs"
	"net/http"
	"path"
	"strings"

	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/themes"
)

// pages are the door's own templates.
type pages struct {
	all    *template.Template
	files  fs.FS
	policy string
}

// load reads them. The style stands in every page, so that a phone on a slow
// network shows it with the first answer; the policy lets in that style alone, by
// its hash (Content Security Policy Level 3, 2.3.1).
func (p *pages) load() error {
	p.files = themes.Door()
	style, err := fs.ReadFile(p.files, "door.css")
	if err != nil {
		return err
	}
	hash := sha256.Sum256(style)
	p.policy = strings.Replace(listen.Policy, "style-src 'self'", "style-src 'self' 'sha256-"+base64.StdEncoding.EncodeToString(hash[:])+"'", 1)
	p.all, err = template.New("door").Funcs(template.FuncMap{"style": func() template.CSS { return template.CSS(style) }}).ParseFS(p.files, "*.html")
	return err
}

// phoneCookie tells one phone from another, so that none can flood the log.
const phoneCookie = "twodip-phone"

// show writes a page of the door.
func (d *Door) show(w http.ResponseWriter, r *http.Request, status int, name string, page any) {
	if _, err := r.Cookie(phoneCookie); err != nil && r.Method == http.MethodGet {
		http.SetCookie(w, &http.Cookie{Name: phoneCookie, Value: listen.Key(), Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	}
	var out bytes.Buffer
	if err := d.pages.all.ExecuteTemplate(&out, name, page); err != nil {
		http.Error(w, "This page cannot be shown.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Content-Security-Policy", d.pages.policy)
	w.WriteHeader(status)
	_, _ = w.Write(out.Bytes())
}

// own serves the door's script.
func (d *Door) own(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("file")
	if path.Ext(name) != ".js" {
		http.NotFound(w, r)
		return
	}
	http.ServeFileFS(w, r, d.pages.files, name)
}

// catalog serves the built site, and puts the way to the log onto its tiles.
func (d *Door) catalog(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name == "" || strings.HasSuffix(name, "/") {
		name += "index.html"
	}
	site := d.wish.Dir.Made("build/site")
	if site == nil && name == "index.html" {
		d.show(w, r, http.StatusOK, "empty.html", nil)
		return
	}
	if site == nil || !fs.ValidPath(name) || strings.HasPrefix(path.Base(name), ".") {
		http.NotFound(w, r)
		return
	}
	if path.Ext(name) != ".html" {
		http.ServeFileFS(w, r, site, name)
		return
	}
	text, err := fs.ReadFile(site, name)
	if err != nil {
		d.show(w, r, http.StatusNotFound, "lost.html", nil)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(withWay(name, text))
}

// withWay puts the link to the log's form at the head of a page's main part.
func withWay(name string, text []byte) []byte {
	way := `<p class="ways"><a class="button" href="/piece">I glazed a piece</a> <a class="button" href="/mine">My pieces</a></p>`
	if number, ok := strings.CutPrefix(strings.TrimSuffix(name, ".html"), "tile/"); ok {
		way = `<p class="ways"><a class="button" href="/piece?tile=` + template.URLQueryEscaper(number) + `">I glazed a piece like this</a></p>`
	}
	at := bytes.Index(text, []byte("<main"))
	if at < 0 {
		return text
	}
	end := bytes.IndexByte(text[at:], '>')
	if end < 0 {
		return text
	}
	at += end + 1
	return append(append(append([]byte{}, text[:at]...), way...), text[at:]...)
}
