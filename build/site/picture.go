package site

import (
	"bufio"
	"encoding/binary"
	"errors"
	"io"
	"os"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/unchanged"
)

// picture is a JPEG that the site shows.
type picture struct {
	Src           string // below the site
	Width, Height int    // px
	from          string // the file it comes from
	size          int64
	sum           string // the hash of its bytes
}

func (p picture) ok() bool { return p.Src != "" }

// The widths of the pictures a tile has, px.
const (
	large = 1280
	small = 320
)

// pictures takes the tiles' pictures into the site and makes the thumbnail
// sheets.
func (m *maker) pictures() error {
	if m.Pictures == nil {
		return nil
	}
	return each(m.hung, func(h *hung) (err error) {
		defer m.Tick()
		if h.photo, err = m.takePicture(h.Number, large); err != nil {
			return err
		}
		h.thumb, err = m.takePicture(h.Number, small)
		return err
	})
}

// takePicture takes one picture, or none where there is none. A file that is
// no clean JPEG is left out and said.
func (m *maker) takePicture(n tiles.Number, width int) (picture, error) {
	from, ok := m.Pictures(n, width)
	if !ok {
		return picture{}, nil
	}
	p, err := inspect(from)
	if err == nil {
		p.sum, err = m.sum(from)
	}
	if err != nil {
		m.warning("the picture of tile %s is left out: %v; delete it and measure again", n, err)
		return picture{}, nil
	}
	if width == large {
		p.Src = "picture/" + n.String() + ".jpg"
		return m.takePhoto(p)
	}
	p.Src = "picture/" + n.String() + "-small.jpg"
	return p, m.out.take(p.Src, from, p.sum)
}

// inspect reads a picture's size and makes sure that nothing but the picture is in it.
func inspect(from string) (picture, error) {
	f, err := os.Open(from)
	if err != nil {
		return picture{}, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return picture{}, err
	}
	w, h, err := jpegSize(f)
	return picture{Width: w, Height: h, from: from, size: info.Size()}, err
}

// sizeOf is the size of a picture of the site.
func sizeOf(file string) (width, height int, err error) {
	p, err := inspect(file)
	return p.Width, p.Height, err
}

// sum is the hash of a picture's bytes.
func (m *maker) sum(file string) (string, error) {
	if m.Sum != nil {
		return m.Sum(file)
	}
	data, err := os.ReadFile(file)
	return unchanged.Sum(data), err
}

var errNotJPEG = errors.New("it is not a whole JPEG")

// jpegSize reads the size from a JPEG's headers (ITU-T T.81, B.1.1 and B.2.2)
// and refuses a file with metadata: where a photo was taken, when and by what
// must never reach the site. A color profile (APP2) may stay.
func jpegSize(r io.Reader) (width, height int, err error) {
	b := bufio.NewReader(r)
	var head [2]byte
	if _, err := io.ReadFull(b, head[:]); err != nil || head != [2]byte{0xFF, 0xD8} {
		return 0, 0, errNotJPEG
	}
	for {
		var seg [4]byte
		if _, err := io.ReadFull(b, seg[:]); err != nil || seg[0] != 0xFF {
			return 0, 0, errNotJPEG
		}
		length := int(binary.BigEndian.Uint16(seg[2:])) - 2
		switch marker := seg[1]; {
		case marker == 0xE1 || marker == 0xED || marker == 0xFE:
			return 0, 0, errors.New("it holds metadata")
		case marker >= 0xC0 && marker <= 0xC3:
			var frame [5]byte
			if _, err := io.ReadFull(b, frame[:]); err != nil {
				return 0, 0, errNotJPEG
			}
			return int(binary.BigEndian.Uint16(frame[3:])), int(binary.BigEndian.Uint16(frame[1:])), nil
		}
		if _, err := b.Discard(max(length, 0)); err != nil {
			return 0, 0, errNotJPEG
		}
	}
}
