package bench

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"mime/multipart"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// photoOf is a photograph of a tile of one color on a grey ground.
func photoOf(t *testing.T, c color.Color) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			m.Set(x, y, color.Gray{150})
			if x > 140 && x < 260 && y > 60 && y < 240 {
				m.Set(x, y, c)
			}
		}
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, nil))
	return b.Bytes()
}

// sent is several files in one form.
func (c *client) sent(path string, files map[string][]byte) page {
	c.t.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	for name, data := range files {
		part, err := form.CreateFormFile("photo", name)
		require.NoError(c.t, err)
		_, err = part.Write(data)
		require.NoError(c.t, err)
	}
	require.NoError(c.t, form.Close())
	return c.read(c.http.Post(c.base+path, form.FormDataContentType(), &body))
}

// planned is a wall of six glazes with its plan.
func planned(t *testing.T) folder.Folder {
	t.Helper()
	dir := glazed(t)
	_, err := run.Plan(dir, run.PlanWish{})
	require.NoError(t, err)
	return dir
}

func TestPhotographsAreBroughtReadAndPutRight(t *testing.T) {
	dir := planned(t)
	c := open(t, dir.Dir())
	red := photoOf(t, color.RGBA{150, 40, 30, 255})
	p := c.sent("/photographs/bring", map[string][]byte{"7.jpg": red, "holiday.jpg": photoOf(t, color.RGBA{20, 90, 160, 255}), "notes.txt": []byte("no picture")})
	require.Contains(t, p.text, "2 photographs were brought into tiles/photos.")
	require.Contains(t, p.text, "notes.txt: it is not a picture this program knows")
	p = c.done("/photographs")
	require.Equal(t, string(red), read(t, dir, "tiles/photos/7.jpg"), "as it was sent")
	require.Contains(t, p.Find(`li[data-photo="7.jpg"]`).Text(), "1st")
	require.Equal(t, 1, p.Find(`li[data-photo="7.jpg"] polygon.outline`).Length())
	require.Contains(t, p.text, strings.TrimSpace(c.get("/photographs/card?photo=7.jpg").text), "what was shown alone stays as it is")
	first := p.Find("ul.photos > li").First()
	require.Equal(t, "holiday.jpg", first.AttrOr("data-photo", ""), "what was not read comes first")
	require.Contains(t, first.Text(), "Not read")

	one := c.get(first.Find("a.seen").AttrOr("href", ""))
	wrong := c.send(one, "form.right", "/photographs/set", url.Values{"tile": {"999"}, "turn": nil, "forget": nil})
	require.Contains(t, wrong.main(), "there is no tile 999 on this wall")
	set := c.send(one, "form.right", "/photographs/set", url.Values{"tile": {"9"}, "turn": nil, "forget": nil})
	require.Contains(t, set.text, "Kept in tiles/by-hand.csv.")
	require.Contains(t, c.done("/photographs").Find(`li[data-photo="holiday.jpg"]`).Text(), "9")
	require.Contains(t, read(t, dir, record.ByHandFile), "holiday.jpg,9")

	stale := c.send(one, "form.right", "/photographs/set", url.Values{"tile": {"8"}, "turn": nil, "forget": nil})
	require.Equal(t, http.StatusConflict, stale.status)

	one = c.get("/photographs?photo=7.jpg")
	turned := c.send(one, "form.right", "/photographs/set", url.Values{"turn": {"1"}, "forget": nil})
	require.Contains(t, turned.text, "Kept in")
	c.done("/photographs")
	w, err := run.Load(dir)
	require.NoError(t, err)
	require.True(t, w.Hand[1].Drawn)
	require.Greater(t, w.Hand[1].Outline[0][0], w.Hand[1].Outline[2][0], "its right is its top")
	back := c.send(c.get("/photographs?photo=7.jpg"), "form.right", "/photographs/set", url.Values{"forget": {"1"}, "turn": nil})
	require.Contains(t, back.text, "It is read as it is found again")
	c.done("/photographs")
	require.NotContains(t, read(t, dir, record.ByHandFile), "7.jpg")
}

func TestNoPhotographIsWrittenOverAndNoNameLeavesTheFolder(t *testing.T) {
	dir := planned(t)
	c := open(t, dir.Dir())
	red, blue := photoOf(t, color.RGBA{150, 40, 30, 255}), photoOf(t, color.RGBA{20, 90, 160, 255})
	for _, name := range []string{"7.jpg", "../../7.jpg", `..\..\wall.yaml`, "/etc/passwd", ".hidden.jpg", "CON.jpg", "<script>alert(1)</script>.jpg", "=cmd.jpg", strings.Repeat("é", 300) + ".jpg"} {
		require.Equal(t, http.StatusOK, c.sent("/photographs/bring", map[string][]byte{name: red}).status, name)
	}
	c.sent("/photographs/bring", map[string][]byte{"7.jpg": blue})
	p := c.sent("/photographs/bring", map[string][]byte{"7.jpg": red})
	require.Contains(t, p.text, "1 photograph is here already.")
	p = c.done("/photographs")
	require.Zero(t, p.Find("main script").Length())
	require.Equal(t, string(red), read(t, dir, "tiles/photos/7.jpg"))
	require.Equal(t, string(blue), read(t, dir, "tiles/photos/7 (2).jpg"))
	names, err := dir.Names("tiles/photos")
	require.NoError(t, err)
	require.Len(t, names, 9, names)
	for _, wrong := range []string{"../../wall.yaml", "..%2f..%2fwall.yaml", "%00", "nothing.jpg"} {
		for _, at := range []string{"picture", "part", "card"} {
			answer := c.get("/photographs/" + at + "?photo=" + wrong)
			require.Equal(t, http.StatusUnprocessableEntity, answer.status, "%s %s", at, wrong)
			require.NotContains(t, answer.text, "cone:")
		}
	}
}

// TestAPictureShownSaysNothingOfTheCamera sends a photo with a place in it, and
// looks for the place in what the page is given.
func TestAPictureShownSaysNothingOfTheCamera(t *testing.T) {
	const given = "../../../shared/photos/camera/jpeg/nokia-lumia800-gps-srgb-icc.jpg"
	data, err := os.ReadFile(given)
	if err != nil {
		t.Skip("there are no shared photographs beside the checkout")
	}
	dir := planned(t)
	require.NoError(t, dir.WriteBytes("tiles/photos/7.jpg", data))
	c := open(t, dir.Dir())
	picture := c.get("/photographs/picture?photo=7.jpg").text
	require.True(t, strings.HasPrefix(picture, "\xff\xd8"))
	require.Contains(t, string(data), "Exif")
	require.NotContains(t, picture, "Exif")
	require.NotContains(t, strings.ToLower(picture), "nokia")
}

// TestEverySharedPhotographAtOnce drops all real and hostile files together.
func TestEverySharedPhotographAtOnce(t *testing.T) {
	if testing.Short() || os.Getenv("TWODIP_LONG") == "" {
		t.Skip("TWODIP_LONG=1 drops every shared photograph at once")
	}
	files := map[string][]byte{}
	for _, sub := range []string{"photos", "hostile"} {
		err := filepath.WalkDir("../../../shared/"+sub, func(path string, d os.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			data, err := os.ReadFile(path)
			files[filepath.Base(filepath.Dir(path))+" "+filepath.Base(path)] = data
			return err
		})
		if err != nil {
			t.Skip("there is no shared folder beside the checkout")
		}
	}
	dir := planned(t)
	before := read(t, dir, record.PlanFile)
	c := open(t, dir.Dir())
	p := c.sent("/photographs/bring", files)
	require.Equal(t, http.StatusOK, p.status)
	p = c.done("/photographs")
	require.Equal(t, http.StatusOK, p.status)
	names, err := dir.ListPhotos()
	require.NoError(t, err)
	for _, name := range names {
		require.Equal(t, string(files[name]), read(t, dir, "tiles/photos/"+name), name)
	}
	_, err = run.Load(dir)
	require.NoError(t, err)
	require.Equal(t, strings.Count(before, "\n"), strings.Count(read(t, dir, record.PlanFile), "\n"))
	t.Logf("%d files sent, %d kept; %s", len(files), len(names), strings.Join(strings.Fields(p.Find("#work-did").Text()), " "))
}
