package measure

import (
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/mark"
	"github.com/twodip/twodip/tiles/photo"
)

// Glance reads the color of whatever a photo shows, on a tile or not: of the
// thing that stands out from its ground or, where nothing does, of the middle
// of the picture. A chart of the wall's that lies in the photo corrects it. The
// reading is of no tile; notes are warnings about the photo as a whole.
func (r *Reader) Glance(data []byte, ask Ask) (reading tiles.Reading, notes []string, err error) {
	p, err := photo.Open(data)
	if err != nil {
		return reading, nil, err
	}
	s := &scene{photo: p, luma: mark.Gray(p.Luma()), fix: correct.None(p.Profile.ToXYZ)}
	f, ok := outline(p, s.picture(), tiles.Shape{}, s.besides(ask))
	if !ok {
		f = middle(p)
	}
	if s.chart != nil && s.chart.fit != nil {
		s.use(s.chart.fit)
	}
	r.mosaic.read(p, f.Quad.Bounds())
	whole := areas(tiles.Shape{}, tiles.Pair{}, f.Middle)[0]
	got := r.mosaic.takeSample(&f, whole, &p.Profile.ToXYZ, s.light)
	if got.kept == 0 {
		return reading, nil, photo.Refusal{
			What: "its color cannot be read: the middle is blown out or covered by glare",
			Do:   "take the photo again with less light, or from another side",
		}
	}
	return s.reading(&f, whole.zone, &got, ask), slices.Concat(p.Notes, s.notes), nil
}
