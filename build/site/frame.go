package site

import (
	"bytes"
	"encoding/json"
	"html/template"

	"github.com/twodip/twodip/tiles/unchanged"
)

// policy is the Content-Security-Policy of every page: pictures, style and
// scripts of the site itself and nothing else; no inline script or style, no
// request to anybody. "data:" is the empty icon, "blob:" a photo that the
// reader chose on the own device.
const policy = "default-src 'none'; img-src 'self' data: blob:; style-src 'self'; script-src 'self'; form-action 'none'; base-uri 'none'"

// Frame is what every page has around it.
type Frame struct {
	Root    string // the way back to the site's root: "" or "../"
	ID      string // tells this wall's notes on a device from another's
	Title   string
	Kind    string // the page's class
	Wall    string
	Policy  string
	Promise string
	About   string   // the page in a sentence, for a link to it in a message
	Preview []string // none, or the full address of a picture for such a link
	Nav     []Link
	Data    []Link
	Scripts []string // besides site.js: run when the page is there
}

// Link is a word that leads to a page; Href is below the site's root.
type Link struct {
	Href, Text string
	Current    string // "page" on the page itself, else "false"
}

// PageView is a page of the teacher's own, made from Markdown.
type PageView struct {
	Frame
	Heading  string
	PageLang string
	Body     template.HTML // goldmark's, raw HTML left out
}

// frame fills the frame of the page at path.
func (m *maker) frame(path, title, kind string, scripts ...string) Frame {
	f := Frame{
		Root: root(path), ID: m.id(), Title: title, Kind: kind, Wall: m.name(), Policy: policy,
		Promise: "Colors are what was measured on these tiles, fired in these loads. Your piece may differ. No overlap of two glazes has been tested for food.",
		Scripts: scripts,
		About:   "Fired test tiles: every glaze, every pair in both orders, searched by words and by color.",
	}
	if title != m.name() {
		f.Title = title + " · " + m.name()
	}
	for _, l := range m.nav() {
		l.Current = "false"
		if l.Href == path {
			l.Current = "page"
		}
		f.Nav = append(f.Nav, l)
	}
	f.Data = []Link{{Href: "data/tiles.csv", Text: "All tiles as CSV"}, {Href: "data/tiles.json", Text: "as JSON"}}
	return f
}

// nav lists the pages that every page leads to.
func (m *maker) nav() []Link {
	links := []Link{
		{Href: "index.html", Text: "Wall"},
		{Href: "color.html", Text: "By color"},
		{Href: "order.html", Text: "Order"},
		{Href: "compare.html", Text: "Compare"},
		{Href: "room.html", Text: "For the room"},
		{Href: "shortlist.html", Text: "Shortlist"},
		{Href: "kept.html", Text: "Your pieces"},
	}
	for _, p := range m.Pages {
		links = append(links, Link{Href: pagePath(p), Text: p.Title})
	}
	return append(links, m.teacherNav()...)
}

func (m *maker) name() string {
	if m.Wall.Name == "" {
		return "Wall of test tiles"
	}
	return m.Wall.Name
}

// root is the way from a page back to the site's root.
func root(path string) string {
	for _, c := range path {
		if c == '/' {
			return "../"
		}
	}
	return ""
}

// page writes the page at path from a template. A page is decided by its
// template and what it shows: one that stands and was made from the same is
// taken over.
func (m *maker) page(path, template string, shows any) error {
	from, err := m.hash(template, m.look.sum, shows)
	if err != nil {
		return err
	}
	if m.out.reuse(path, from) {
		return nil
	}
	var b bytes.Buffer
	if err := m.look.page(&b, template, shows); err != nil {
		return err
	}
	return m.out.put(path, from, b.Bytes())
}

// hash is of everything given and of the version of the program.
func (m *maker) hash(parts ...any) (string, error) {
	if m.Version == "" {
		return "", nil // nothing is taken over
	}
	data, err := json.Marshal(append(parts, m.Version))
	return unchanged.Sum(data), err
}
