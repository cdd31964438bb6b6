package bench

import (
	"bytes"
	"context"
	"io"
	"mime/multipart"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
)

// client is somebody at a bench with a browser that runs no script.
type client struct {
	t       *testing.T
	address string // as it was printed, with the key
	base    string // without it: "http://127.0.0.1:4711"
	http    *http.Client
	ended   chan error // takes what Serve returned
	end     context.CancelFunc
}

// open serves a bench of the wall until the test ends, with its own memory of
// walls opened lately; "" is no wall.
func open(t *testing.T, wall string) *client {
	t.Helper()
	t.Setenv("XDG_CONFIG_HOME", t.TempDir())
	return openWish(t, Wish{Wall: wall})
}

// openWish is open as the test wishes, with the memory that is there.
func openWish(t *testing.T, wish Wish) *client {
	t.Helper()
	out, in := io.Pipe()
	wish.Listen, wish.Out = "127.0.0.1:0", in
	ctx, end := context.WithCancel(t.Context())
	c := &client{t: t, ended: make(chan error, 1), end: end}
	go func() { c.ended <- Serve(ctx, wish); _ = in.Close() }()
	t.Cleanup(func() {
		end()
		select {
		case err := <-c.ended:
			c.ended <- err
		case <-time.After(time.Minute):
			t.Error("the bench did not end")
		}
	})
	line := make([]byte, 300)
	n, err := out.Read(line)
	require.NoError(t, err)
	c.address = strings.TrimSpace(string(line[:n]))
	u, err := url.Parse(c.address)
	require.NoError(t, err)
	c.base = u.Scheme + "://" + u.Host
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	c.http = &http.Client{Jar: jar}
	c.read(c.http.Get(c.address))
	return c
}

// newWall is a wall just begun, in a folder of the test's.
func newWall(t *testing.T) folder.Folder {
	t.Helper()
	dir := t.TempDir() + "/wall"
	require.NoError(t, content.Start(dir))
	return folder.At(dir)
}

// page is what was answered.
type page struct {
	*goquery.Document
	status int
	path   string // where it led
	text   string // as it came
}

// main is what the page says below its head, with single spaces.
func (p page) main() string { return strings.Join(strings.Fields(p.Find("main").Text()), " ") }

// value is what stands in a field of the page.
func (p page) value(name string) string { return p.Find(`[name="`+name+`"]`).AttrOr("value", "") }

func (c *client) read(answer *http.Response, err error) page {
	c.t.Helper()
	require.NoError(c.t, err)
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	require.NoError(c.t, err)
	doc, err := goquery.NewDocumentFromReader(bytes.NewReader(text))
	require.NoError(c.t, err)
	return page{Document: doc, status: answer.StatusCode, path: answer.Request.URL.Path, text: string(text)}
}

func (c *client) get(path string) page {
	c.t.Helper()
	return c.read(c.http.Get(c.base + path))
}

// post sends an ordinary form: names and values in turn.
func (c *client) post(path string, namesAndValues ...string) page {
	c.t.Helper()
	form := url.Values{}
	for i := 0; i+1 < len(namesAndValues); i += 2 {
		form.Add(namesAndValues[i], namesAndValues[i+1])
	}
	return c.read(c.http.PostForm(c.base+path, form))
}

// send submits a form of a page as a browser does, with what is changed in it.
func (c *client) send(p page, form string, path string, changed url.Values) page {
	c.t.Helper()
	values := url.Values{}
	p.Find(form).Find("input, select, textarea").Each(func(_ int, s *goquery.Selection) {
		name, kind := s.AttrOr("name", ""), s.AttrOr("type", "text")
		_, checked := s.Attr("checked")
		switch {
		case name == "" || kind == "file" || (kind == "checkbox" || kind == "radio") && !checked:
		case goquery.NodeName(s) == "select":
			values.Add(name, s.Find("option[selected]").AttrOr("value", ""))
		case goquery.NodeName(s) == "textarea":
			values.Add(name, s.Text())
		default:
			values.Add(name, s.AttrOr("value", ""))
		}
	})
	for name, to := range changed {
		values[name] = to
	}
	return c.read(c.http.PostForm(c.base+path, values))
}

// bring uploads one file.
func (c *client) bring(path, field, name string, data []byte) page {
	c.t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile(field, name)
	require.NoError(c.t, err)
	_, err = part.Write(data)
	require.NoError(c.t, err)
	require.NoError(c.t, form.Close())
	return c.read(c.http.Post(c.base+path, form.FormDataContentType(), &body))
}
