package site

import (
	"bytes"
	"image/jpeg"
	"net/url"
	"path"
	"strings"

	"github.com/yuin/goldmark/ast"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/unchanged"
)

// pagePictures brings a page's own pictures into the site: upright, without
// what the camera wrote into them. A picture from elsewhere becomes a link to
// it, for the site asks nothing of anybody else; one that cannot be had leaves
// its words.
func (m *maker) pagePictures(p content.Page, doc ast.Node) error {
	var all []*ast.Image
	_ = ast.Walk(doc, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if img, ok := n.(*ast.Image); ok && entering {
			all = append(all, img)
		}
		return ast.WalkContinue, nil
	})
	for _, img := range all {
		u, err := url.Parse(string(img.Destination))
		if err != nil || u.Scheme != "" || u.Host != "" {
			link := ast.NewLink()
			link.Destination = img.Destination
			instead(img, link)
			continue
		}
		src, err := m.pagePicture(p, u.Path)
		if err != nil {
			return err
		}
		if src == "" {
			instead(img, nil)
			continue
		}
		img.Destination = []byte(src)
	}
	return nil
}

// instead puts what a picture says in its place, inside another node where
// one is given.
func instead(img *ast.Image, in ast.Node) {
	parent := img.Parent()
	for c := img.FirstChild(); c != nil; {
		next := c.NextSibling()
		if in == nil {
			parent.InsertBefore(parent, img, c)
		} else {
			in.AppendChild(in, c)
		}
		c = next
	}
	if in == nil {
		parent.RemoveChild(parent, img)
		return
	}
	parent.ReplaceChild(parent, img, in)
}

// pagePicture is pageFile, asked once for each file however often it is shown.
func (m *maker) pagePicture(p content.Page, name string) (string, error) {
	file := path.Join("content", name)
	if src, known := m.placed[file]; known {
		return src, nil
	}
	src, err := m.pageFile(p, name)
	if err == nil {
		if m.placed == nil {
			m.placed = map[string]string{}
		}
		m.placed[file] = src
	}
	return src, err
}

// pageFile writes one picture and returns its address from the page; "" =
// left out, which is said. It is named after its bytes: what a person calls a
// file ("Emma crying.jpg") is not for everybody.
func (m *maker) pageFile(p content.Page, name string) (string, error) {
	file := path.Join("content", name)
	if m.PagePicture == nil || !inContent(name) {
		m.warning("%s shows %s, which is not in content/: it is left out", p.File, name)
		return "", nil
	}
	data, err := m.PagePicture(file)
	if err != nil {
		m.warning("%s shows %s, which is left out: %v", p.File, name, err)
		return "", nil
	}
	if _, err := jpeg.DecodeConfig(bytes.NewReader(data)); err != nil {
		return "", err
	}
	src := "picture/page-" + short(unchanged.Sum(data)) + ".jpg"
	return "../" + src, m.out.write(src, data)
}

// inContent says that a picture's name leads to no place but content/, on any
// system: Windows goes up by "..\\" too, and to another disk by "C:".
func inContent(name string) bool {
	return !strings.ContainsAny(name, "\\:") && strings.HasPrefix(path.Join("content", name), "content/")
}
