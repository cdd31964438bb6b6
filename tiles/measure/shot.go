package measure

import (
	"fmt"

	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/photo"
)

// shot is an opened photo, and what is made of it once.
type shot struct {
	photo *photo.Photo
	luma  mark.Plane
	large photo.Small // made when it is first needed
}

func openShot(data []byte) (*shot, error) {
	p, err := photo.Open(data)
	if err != nil {
		return nil, err
	}
	if w, h := p.Width(), p.Height(); min(w, h) < leastSide || max(w, h) > mostLong*min(w, h) {
		return nil, photo.Refusal{
			What: fmt.Sprintf("it is %d × %d pixels, too small or too narrow to be a photo of a tile", w, h),
			Do:   "use the photo as the camera took it",
		}
	}
	return &shot{photo: p, luma: mark.Gray(p.Luma())}, nil
}

// What is smaller or narrower is no photo of a tile: in the pictures that tiles
// are looked for in, nothing of it would be left.
const (
	leastSide = 32 // pixels
	mostLong  = 8  // longer side to shorter
)

// picture is the whole photo at the size of the larger picture.
func (s *shot) picture() photo.Small {
	if s.large.YCbCr == nil {
		s.large = s.photo.Small(s.photo.Image.Bounds(), Widths[0])
	}
	return s.large
}

// tint is the photo's differences of color, where it has them.
func (s *shot) tint() (out []mark.Plane) {
	for _, p := range s.photo.Tint() {
		out = append(out, mark.Gray(p))
	}
	return out
}
