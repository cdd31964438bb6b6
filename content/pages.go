package content

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"github.com/adrg/frontmatter"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// Page is one of the teacher's own pages: a Markdown file straight in content/.
type Page struct {
	File  string // path inside the wall, forward slashes
	Slug  string // what its address ends in: lower-case letters, digits, hyphens; unique on the wall
	Title string
	Order int    // smaller comes first; 0 where the page does not say
	Body  []byte // Markdown below the front matter
	Line  int    // line of File at which Body begins
}

// maxPages is more than a site's list of pages can show.
const maxPages = 200

// ReadPages reads content/*.md of the wall in dir, by order, then by title.
// README.md, files whose name begins with a dot or an underscore and second
// versions of a page are left out. Front matter (between two lines of three hyphens, at the very top) may
// give title and order; without a title the first heading is it.
func ReadPages(dir folder.Folder) ([]Page, error) {
	files, err := pageFiles(dir)
	if err != nil {
		return nil, err
	}
	var pages []Page
	var ps tiles.Problems
	for _, file := range files {
		text, err := readText(dir, file, maxPage)
		if err == nil {
			var p Page
			if p, err = ParsePage(file, text); err == nil {
				pages = append(pages, p)
			}
		}
		ps = append(ps, asProblems(err)...)
	}
	ps = append(ps, slugsTwice(pages)...)
	if len(ps) > 0 {
		return nil, ps
	}
	slices.SortStableFunc(pages, func(a, b Page) int {
		if a.Order != b.Order {
			return a.Order - b.Order
		}
		return strings.Compare(a.Title, b.Title)
	})
	return pages, nil
}

func pageFiles(dir folder.Folder) ([]string, error) {
	names, err := dir.Names("content")
	if err != nil {
		return nil, err
	}
	twice := map[string]bool{}
	for _, copy := range dir.PageCopies() {
		twice[copy.File] = true
	}
	var files []string
	for _, name := range names {
		file := "content/" + name
		if strings.EqualFold(path.Ext(name), ".md") && !strings.EqualFold(name, "README.md") && !strings.ContainsRune("._", rune(name[0])) && !twice[file] {
			files = append(files, file)
		}
	}
	if len(files) > maxPages {
		return nil, problem("content", 0, fmt.Sprintf("holds %d pages", len(files)), fmt.Sprintf("keep up to %d", maxPages))
	}
	return files, nil
}

// front is what a page may say above its text.
type front struct {
	Title string `yaml:"title"`
	Order int    `yaml:"order"`
}

// unclosed is the beginning of front matter, not a rule across the page.
var unclosed = regexp.MustCompile(`^\s*---[ \t]*\n(title|order):`)

// ParsePage reads one page. The file gives its slug, and its title where
// nothing else does.
func ParsePage(file string, text []byte) (Page, error) {
	text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
	var head front
	var ps tiles.Problems
	strict := func(raw []byte, into any) error {
		above := bytes.Count(text[:bytes.Index(text, raw)], []byte("\n"))
		_, ps = decodeYAML(file, append(bytes.Repeat([]byte("\n"), above), raw...), into)
		return nil
	}
	body, err := frontmatter.Parse(bytes.NewReader(text), &head, frontmatter.NewFormat("---", "---", strict))
	if err != nil || (len(body) == len(text) && unclosed.Match(text)) {
		return Page{}, problem(file, 1, "the front matter has no end", "close it with a line of three hyphens")
	}
	if len(ps) > 0 {
		return Page{}, ps
	}
	if ps := tangle(file, text); len(ps) > 0 {
		return Page{}, ps
	}
	p := Page{File: file, Slug: slug(file), Title: tidy(head.Title), Order: head.Order, Body: body}
	p.Line = 1 + bytes.Count(text[:len(text)-len(body)], []byte("\n"))
	if p.Title == "" {
		p.Title = titleOf(file, body)
	}
	if n := len([]rune(p.Title)); n > maxName*2 {
		return Page{}, problem(file, 1, fmt.Sprintf("the title has %d letters", n), fmt.Sprintf("shorten it to %d", maxName*2))
	}
	return p, nil
}

var heading = regexp.MustCompile(`(?m)^#[ \t]+(.+?)[ \t#]*$`)

// titleOf is the first heading, or the file's name in words.
func titleOf(file string, body []byte) string {
	if m := heading.FindSubmatch(body); m != nil {
		if title := tidy(string(m[1])); title != "" {
			return title
		}
	}
	name := strings.TrimSuffix(path.Base(file), path.Ext(file))
	name = tidy(strings.NewReplacer("-", " ", "_", " ").Replace(name))
	if name == "" {
		return "Page"
	}
	first := []rune(name)
	first[0] = unicode.ToUpper(first[0])
	return string(first)
}

var notSlug = regexp.MustCompile(`[^\p{Ll}\p{Lo}\p{Nd}]+`)

// slug makes the file's name an address anybody can type.
func slug(file string) string {
	name := strings.TrimSuffix(path.Base(file), path.Ext(file))
	s := strings.Trim(notSlug.ReplaceAllString(strings.ToLower(tidy(name)), "-"), "-")
	if s == "" || folder.IsDevice(s) {
		return strings.TrimSuffix("page-"+s, "-")
	}
	return s
}

func slugsTwice(pages []Page) tiles.Problems {
	var ps tiles.Problems
	seen := map[string]string{}
	for _, p := range pages {
		if other := seen[p.Slug]; other != "" {
			ps = append(ps, tiles.Problem{File: p.File, What: "would have the same address as " + other, Do: "rename one of the two files"})
		}
		seen[p.Slug] = p.File
	}
	return ps
}

func asProblems(err error) tiles.Problems {
	var ps tiles.Problems
	if err == nil {
		return nil
	}
	if errors.As(err, &ps) {
		return ps
	}
	return tiles.Problems{{File: "content", What: err.Error()}}
}
