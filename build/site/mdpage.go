package site

import (
	"bytes"
	"html/template"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	gmutil "github.com/yuin/goldmark/util"

	"github.com/twodip/twodip/content"
)

// markdown turns a page's source into HTML. Raw HTML and script addresses are
// left out by goldmark itself.
var markdown = goldmark.New(
	goldmark.WithExtensions(extension.Table, extension.Strikethrough, extension.TaskList, extension.Linkify),
	goldmark.WithParserOptions(parser.WithAutoHeadingID(), parser.WithASTTransformers(gmutil.Prioritized(pageLinks{}, 500))),
)

// pagePath is where one of the teacher's pages stands below the site.
func pagePath(p content.Page) string { return "page/" + p.Slug + ".html" }

// ownPages makes the teacher's pages.
func (m *maker) ownPages() error {
	for _, p := range m.Pages {
		doc := markdown.Parser().Parse(text.NewReader(p.Body))
		fitHeadings(doc, p)
		if err := m.pagePictures(p, doc); err != nil {
			return err
		}
		m.checkPageLinks(p, doc)
		var body bytes.Buffer
		if err := markdown.Renderer().Render(&body, p.Body, doc); err != nil {
			return err
		}
		at := pagePath(p)
		v := PageView{
			Frame: m.frame(at, p.Title, "prose-body"), Heading: p.Title, PageLang: m.language(),
			Body: template.HTML(body.String()),
		}
		if err := m.page(at, "page.html", v); err != nil {
			return err
		}
	}
	return nil
}

func (m *maker) language() string {
	if m.Wall.Language == "" {
		return "en"
	}
	return m.Wall.Language
}

// fitHeadings brings the page's headings below its title: the highest becomes
// the second level, and no level is left out on the way down. A first heading
// that only repeats the title goes.
func fitHeadings(doc ast.Node, p content.Page) {
	if h, ok := doc.FirstChild().(*ast.Heading); ok && strings.TrimSpace(string(h.Lines().Value(p.Body))) == p.Title {
		doc.RemoveChild(doc, h)
	}
	var open []int // levels as written, of the headings that lie around the next one
	for n := doc.FirstChild(); n != nil; n = n.NextSibling() {
		h, ok := n.(*ast.Heading)
		if !ok {
			continue
		}
		for len(open) > 0 && open[len(open)-1] >= h.Level {
			open = open[:len(open)-1]
		}
		open = append(open, h.Level)
		h.Level = min(len(open)+1, 6)
	}
}

// checkPageLinks says which links of a page lead to no page of the site.
func (m *maker) checkPageLinks(p content.Page, doc ast.Node) {
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		link, ok := n.(*ast.Link)
		if !ok || !entering {
			return ast.WalkContinue, nil
		}
		to, _, _ := strings.Cut(string(link.Destination), "#")
		u, err := url.Parse(to)
		if err != nil || to == "" || u.Scheme != "" || u.Host != "" {
			return ast.WalkContinue, nil
		}
		if !m.hasPage(path.Join("page", u.Path)) {
			m.warning("%s links to %s, which is not on the site", p.File, link.Destination)
		}
		return ast.WalkContinue, nil
	})
}

// hasPage says whether the site has the page.
func (m *maker) hasPage(name string) bool {
	if _, err := os.Stat(filepath.Join(m.out.temp, filepath.FromSlash(name))); err == nil {
		return true
	}
	return slices.ContainsFunc(m.Pages, func(p content.Page) bool { return pagePath(p) == name })
}

// pageLinks makes a link to another Markdown page lead to its page on the site.
type pageLinks struct{}

// Transform changes the page's tree in place.
func (pageLinks) Transform(doc *ast.Document, _ text.Reader, _ parser.Context) {
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if link, ok := n.(*ast.Link); ok && entering {
			link.Destination = pageLink(link.Destination)
		}
		return ast.WalkContinue, nil
	})
}

// pageLink turns a link to a Markdown file into one to its page.
func pageLink(to []byte) []byte {
	s, fragment, has := strings.Cut(string(to), "#")
	if strings.Contains(s, ":") || !strings.HasSuffix(s, ".md") {
		return to
	}
	s = strings.TrimSuffix(s, ".md") + ".html"
	if has {
		s += "#" + fragment
	}
	return []byte(s)
}
