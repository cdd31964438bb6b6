package measure

import (
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
	return &shot{photo: p, luma: mark.Gray(p.Luma())}, nil
}

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
