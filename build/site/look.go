package site

import (
	"bytes"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"github.com/twodip/twodip/themes"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/unchanged"
)

// look is a theme read and ready: the pages' templates, the style, the scripts.
type look struct {
	pages   map[string]*template.Template
	style   []byte
	scripts map[string][]byte
	words   []wordRow
	sum     string // of the templates
}

// shared are the templates that every page may use.
var shared = []string{"layout.html", "parts.html", "find.html"}

// scriptFiles says which files make a script of the site, in order: one for
// every page, one for the wall, one for the pages that a script fills. A page
// loads what it needs and no more, in few requests; what reads the wall's data
// comes behind the data, so that no device loads it twice.
var scriptFiles = map[string][]string{
	"site.js":    {"store.js", "surround.js", "say.js", "pick.js", "closer.js", "wall.js", "kept.js"},
	columnsFile:  {"color.js", "columns.js", "cards.js"},
	"find.js":    {"text.js", "words.js", "ask.js", "photo.js", "find.js"},
	"show.js":    {"compare.js", "map.js", "qr.js", "shortlist.js", "room.js"},
	guessFile:    {"guess.js"}, // behind the guesses themselves, where there are any
	"offline.js": {"offline.js"},
}

// readTheme reads the built-in theme with the wall's own files over it.
func readTheme(own fs.FS) (*look, error) {
	over := themes.Over(own)
	if err := unknownFiles(own); err != nil {
		return nil, err
	}
	l := &look{pages: map[string]*template.Template{}, scripts: map[string][]byte{}}
	var err error
	if l.sum, err = sumOf(over); err != nil {
		return nil, err
	}
	if l.words, err = readWords(over); err != nil {
		return nil, err
	}
	base := template.New("layout.html")
	for _, name := range shared {
		if err := parseFile(base, over, name); err != nil {
			return nil, err
		}
	}
	for _, name := range themes.Names() {
		if path.Ext(name) != ".html" || slices.Contains(shared, name) {
			continue
		}
		page := template.Must(base.Clone())
		if err := parseFile(page, over, name); err != nil {
			return nil, err
		}
		l.pages[name] = page
	}
	return l, l.readFiles(over)
}

// sumOf is the hash of a theme's templates.
func sumOf(theme fs.FS) (string, error) {
	var all bytes.Buffer
	for _, name := range themes.Names() {
		if path.Ext(name) != ".html" {
			continue
		}
		src, err := fs.ReadFile(theme, name)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(&all, "%s %d\n%s", name, len(src), src)
	}
	return unchanged.Sum(all.Bytes()), nil
}

// parseFile adds one template file; what is wrong in it is said with its name.
func parseFile(t *template.Template, over fs.FS, name string) error {
	src, err := fs.ReadFile(over, name)
	if err != nil {
		return err
	}
	if name != "layout.html" {
		t = t.New(name)
	}
	if _, err := t.Parse(string(src)); err != nil {
		return themeProblem(name, err)
	}
	return nil
}

// themeProblem says what is wrong in a template of the wall's own.
func themeProblem(name string, err error) error {
	what := strings.TrimPrefix(err.Error(), "template: ")
	what = strings.ReplaceAll(what, "unexpected EOF", "it ends before a }} or an {{end}} that it needs")
	return tiles.Problem{File: "themes/" + name, What: "the template cannot be used: " + what,
		Do: "mend it, or delete the file to have the built-in one back"}
}

// unknownFiles refuses a file of the wall's theme that would replace nothing:
// its name is mistyped more often than not.
func unknownFiles(own fs.FS) error {
	if own == nil {
		return nil
	}
	var wrong tiles.Problems
	err := fs.WalkDir(own, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(path.Base(name), ".") {
			return err
		}
		if !slices.Contains(themes.Names(), name) {
			wrong = append(wrong, tiles.Problem{File: "themes/" + name, What: "replaces no file of the built-in theme",
				Do: "name it like one of " + strings.Join(themes.Names(), ", ")})
		}
		return nil
	})
	if err != nil {
		return err
	}
	return wrong.OrNil()
}

// readFiles joins the style and the scripts, each from its files in order.
func (l *look) readFiles(over fs.FS) error {
	var styles []string
	for _, name := range themes.Names() {
		if path.Ext(name) == ".css" {
			styles = append(styles, name)
		}
	}
	var err error
	if l.style, err = join(over, styles); err != nil {
		return err
	}
	for name, parts := range scriptFiles {
		files := make([]string, len(parts))
		for i, p := range parts {
			files[i] = "script/" + p
		}
		if l.scripts[name], err = join(over, files); err != nil {
			return err
		}
	}
	return nil
}

// join puts files together, each made smaller first.
func join(over fs.FS, names []string) ([]byte, error) {
	var b bytes.Buffer
	for _, name := range names {
		data, err := fs.ReadFile(over, name)
		if err != nil {
			return nil, err
		}
		if data, err = lean(name, data); err != nil {
			return nil, err
		}
		b.Write(data)
		b.WriteByte('\n')
	}
	return b.Bytes(), nil
}

// page writes one page; what a wall's own template does wrong is said.
func (l *look) page(w io.Writer, name string, data any) error {
	t, ok := l.pages[name]
	if !ok {
		return fmt.Errorf("no template %s", name)
	}
	if err := t.Execute(w, data); err != nil {
		return themeProblem(name, err)
	}
	return nil
}

// withoutScript is the style of a browser that runs no script: what needs one
// is not shown. Everywhere else it stands from the start, so that nothing moves.
const withoutScript = "[data-needs],.cell::after{display:none!important}\n"

// lookFiles writes the style and the scripts.
func (m *maker) lookFiles() error {
	// A wall's cells share the width there is, so its style knows how many there are.
	style := fmt.Appendf(slices.Clip(m.look.style), ":root{--columns:%d}\n", max(1, len(m.columns())))
	if err := m.out.write("look.css", style); err != nil {
		return err
	}
	if err := m.out.write("noscript.css", []byte(withoutScript)); err != nil {
		return err
	}
	for name, data := range m.look.scripts {
		if name == guessFile || name == columnsFile {
			continue // they come with their data
		}
		if err := m.out.write(name, data); err != nil {
			return err
		}
	}
	return nil
}
