package site

import (
	"bytes"
	"image"
	"image/jpeg"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
)

// FuzzJPEGSize feeds anything to the reader of picture headers: it ends, and
// what it passes has the size that the decoder sees and no metadata.
func FuzzJPEGSize(f *testing.F) {
	var clean bytes.Buffer
	require.NoError(f, jpeg.Encode(&clean, image.NewGray(image.Rect(0, 0, 7, 5)), nil))
	f.Add(clean.Bytes())
	f.Add(append([]byte{0xFF, 0xD8, 0xFF, 0xE1, 0, 8}, "Exif\x00\x00"...))
	f.Add([]byte{0xFF, 0xD8, 0xFF, 0xE0, 0, 0})
	f.Add([]byte{0xFF, 0xD8, 0xFF, 0xFF, 0xC0})
	f.Fuzz(func(t *testing.T, data []byte) {
		w, h, err := jpegSize(bytes.NewReader(data))
		if err != nil {
			return
		}
		if seen, err := jpeg.DecodeConfig(bytes.NewReader(data)); err == nil {
			require.Equal(t, []int{seen.Width, seen.Height}, []int{w, h})
		}
	})
}

// FuzzPage writes anything on a page of the teacher's: nothing of it runs, and
// nothing of it is asked for from elsewhere.
func FuzzPage(f *testing.F) {
	for _, s := range append([]string{
		"# A\n\n[x](y.md#z) ![p](q.png) ![far](//far.example/x)\n", "<svg onload=a()>", "[a]: javascript:b\n\n[a]", "![\"onerror=x](a\"onerror=b)",
		"| a | b |\n|---|---|\n| <b> | `</td>` |\n", "- [ ] x\n", "http://far.example/\"onclick=x", "<a href='x' onclick='y'>z</a>", "[x](<data:text/html,y>)",
	}, hostileNames...) {
		f.Add(s)
	}
	look, err := readTheme(nil)
	require.NoError(f, err)
	dir := f.TempDir()
	f.Fuzz(func(t *testing.T, body string) {
		out, err := begin(t.Context(), dir, "")
		require.NoError(t, err)
		m := &maker{out: out, look: look, Input: Input{Pages: []content.Page{{File: "content/x.md", Slug: "x", Title: "X", Body: []byte(body)}}}}
		require.NoError(t, m.ownPages())
		doc := open(t, out.temp, "page/x.html")
		page := doc.Find(".prose")
		require.Equal(t, 1, page.Length(), "it cannot break out of its place")
		require.Zero(t, page.Find("script, style, iframe, object, embed, svg, form, img, [style], base, link, meta").Length())
		page.Find("*").Each(func(_ int, s *goquery.Selection) {
			for _, a := range s.Nodes[0].Attr {
				require.False(t, strings.HasPrefix(strings.ToLower(a.Key), "on"), a.Key)
				to := strings.ToLower(strings.TrimSpace(a.Val))
				require.False(t, a.Key == "href" && (strings.HasPrefix(to, "javascript:") || strings.HasPrefix(to, "data:") || strings.HasPrefix(to, "vbscript:")), a.Val)
			}
		})
	})
}
