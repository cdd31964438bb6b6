package bench

import (
	"fmt"
	"io"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/photo"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// photoOne is one photo, to be put right.
type photoOne struct {
	photoCard
	Several       bool // it shows several tiles
	ByHand        bool // something was set by hand
	Typed         string
	Drawn         bool
	Corners       []corner
	Width, Height int
	Next          string // the next photo to look at
}

// corner is one of the four, in pixels of the upright photo.
type corner struct {
	N    int
	Name string
	X, Y string
}

var cornerNames = []string{"top left", "top right", "bottom right", "bottom left"}

func (b *Bench) newPhotoOne(a *asked, wall tiles.Wall, cards []photoCard, name string) (*photoOne, error) {
	i := slices.IndexFunc(cards, func(c photoCard) bool { return c.Name == name })
	if i < 0 {
		return nil, tiles.Problem{File: name, What: "there is no such photo in " + folder.Photos, Do: "choose one of those on the page"}
	}
	one := &photoOne{photoCard: cards[i]}
	one.Picture = "/photographs/picture?" + url.Values{"photo": {name}}.Encode()
	if i+1 < len(cards) && cards[i+1].rank < rankRead {
		one.Next = cards[i+1].Address
	}
	for _, r := range one.readings {
		one.Several = one.Several || r.Tile != one.readings[0].Tile
	}
	outline, known := one.outline(a.dir)
	for _, h := range wall.Hand {
		if tiles.SamePhoto(h.Photo, name) && !h.Card {
			one.ByHand = true
			if h.Tile > 0 {
				one.Typed = h.Tile.String()
			}
			if h.Drawn {
				one.Drawn, outline, known = true, h.Outline, true
			}
		}
	}
	if one.Width == 0 {
		if err := b.opened(a.dir, name, func(p *photo.Photo) error {
			one.Width, one.Height = p.Width(), p.Height()
			return nil
		}); err != nil {
			one.Wrong = sentences(err)
			return one, nil
		}
	}
	if !known {
		outline = middle(one.Width, one.Height)
	}
	for n, p := range outline {
		one.Corners = append(one.Corners, corner{n + 1, cornerNames[n], pixel(p[0]), pixel(p[1])})
	}
	return one, nil
}

func pixel(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// outline is what was found of the tile, and how large the photo is.
func (one *photoOne) outline(dir folder.Folder) (q [4][2]float64, known bool) {
	part, _ := run.PartOf(one.Name)
	text, err := dir.Read(part, 16<<20)
	if err != nil || len(one.readings) == 0 {
		return q, false
	}
	d, err := contact.ReadPart(text)
	if err != nil {
		return q, false
	}
	one.Width, one.Height = d.Width, d.Height
	if len(d.Outlines) != 1 {
		return q, false
	}
	for i, p := range d.Outlines[0] {
		q[i] = [2]float64{p.X, p.Y}
	}
	return q, true
}

// middle is an outline to begin with.
func middle(width, height int) [4][2]float64 {
	x0, x1, y0, y1 := float64(width)/4, float64(width)*3/4, float64(height)/4, float64(height)*3/4
	return [4][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// setPhoto keeps what a person says of a photo, and reads it anew.
func (b *Bench) setPhoto(a *asked) (string, error) {
	h := tiles.ByHand{Photo: a.FormValue("photo")}
	if a.FormValue("forget") == "" {
		if err := handOf(a, &h); err != nil {
			return "", err
		}
	}
	if err := run.ByHand(a.dir, a.FormValue("seen"), h); err != nil {
		return "", err
	}
	said := "Kept in " + record.ByHandFile + "."
	if a.FormValue("forget") != "" {
		said = "It is read as it is found again: its row in " + record.ByHandFile + " is gone."
	}
	if err := b.readPhotos(a.dir, []string{h.Photo}); err != nil {
		said += " The bench is at work on something else: when that is done, read the new photographs."
	}
	return b.notes.leave("/photographs?"+url.Values{"photo": {h.Photo}}.Encode(), note{Said: []string{said}}), nil
}

// handOf reads the form: a number, the corners, both.
func handOf(a *asked, h *tiles.ByHand) (err error) {
	wrong := func(what, do string) error { return tiles.Problem{File: h.Photo, What: what, Do: do} }
	if typed := strings.TrimSpace(a.FormValue("tile")); typed != "" {
		if h.Tile, err = tiles.ParseNumber(typed); err != nil {
			return wrong(fmt.Sprintf("%q is not a tile's number", typed), "type the number on the tile's back")
		}
	}
	turn := a.FormValue("turn") != ""
	if h.Drawn = turn || a.FormValue("drawn") != ""; !h.Drawn {
		if h.Tile == 0 {
			return wrong("neither a number was typed nor corners were set", "type the number, or tick that the corners are right")
		}
		return nil
	}
	for i := range h.Outline {
		for k, axis := range []string{"x", "y"} {
			x, err := strconv.ParseFloat(strings.TrimSpace(a.FormValue(axis+strconv.Itoa(i+1))), 64)
			if err != nil || x < -1e6 || x > 1e6 {
				return wrong("a corner is not a number of pixels", "drag the corners, or type x and y of each")
			}
			h.Outline[i][k] = float64(int(10*x+0.5)) / 10
		}
	}
	if turn { // what was its right is its top
		h.Outline = [4][2]float64{h.Outline[1], h.Outline[2], h.Outline[3], h.Outline[0]}
	}
	return nil
}

// opened opens a photo whole, one at a time.
func (b *Bench) opened(dir folder.Folder, name string, do func(*photo.Photo) error) error {
	b.reading.decode.Lock()
	defer b.reading.decode.Unlock()
	data, err := dir.ReadPhoto(name)
	if err != nil {
		return err
	}
	return run.Guarded(func() error {
		p, err := photo.Open(data)
		if err != nil {
			return err
		}
		return do(p)
	})
}

// mostShown is how long a picture's longer side is, in pixels.
const mostShown = 1280

// photoPicture answers with a photo as a JPEG fit for a page: upright, small,
// without what the camera noted.
func (b *Bench) photoPicture(a *asked) error {
	return b.opened(a.dir, a.FormValue("photo"), func(p *photo.Photo) error {
		jpeg, err := p.Small(p.Image.Bounds(), mostShown).JPEG(0)
		if err != nil {
			return err
		}
		a.w.Header().Set("Content-Type", "image/jpeg")
		_, err = a.w.Write(jpeg)
		return err
	})
}

// partPicture answers with the picture that measure made of a photo.
func (b *Bench) partPicture(a *asked) error {
	_, picture := run.PartOf(a.FormValue("photo"))
	file, err := a.dir.Open(picture)
	if err != nil {
		return err
	}
	defer file.Close()
	a.w.Header().Set("Content-Type", "image/jpeg")
	_, err = io.Copy(a.w, file)
	return err
}

// photoCardAlone answers with the card of one photo that was just read, for the
// page's script: of what was found in it, without holding it against others.
func (b *Bench) photoCardAlone(a *asked) error {
	name := a.FormValue("photo")
	wall, found, ok := b.reading.one(a.dir, name)
	if !ok {
		return tiles.Problem{File: name, What: "was not read since the bench was opened"}
	}
	_, seen, err := run.Look(a.dir, record.ByHandFile)
	if err != nil {
		return err
	}
	c := photoCard{Name: name, Seen: seen, readings: found.Readings, rank: rankRead}
	if found.Unchanged {
		c.readings = slices.DeleteFunc(slices.Clone(wall.Readings), func(r tiles.Reading) bool { return r.Photo != name })
	}
	c.fill(wall, found, run.Doubted{})
	c.draw(a.dir)
	a.w.Header().Set("Content-Type", "text/html; charset=utf-8")
	return b.pages.byName["photos"].ExecuteTemplate(a.w, "card", c)
}
