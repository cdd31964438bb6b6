package measure

import (
	"slices"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color/correct"
	"github.com/twodip/twodip/tiles/photo"
)

// Glance reads the color of whatever a photo shows, on a tile or not: of the
// thing that stands out from its ground or, where nothing does, of the middle
// of the picture. A chart of the wall's that lies in the photo corrects it. The
// reading is of no tile; notes are warnings about the photo as a whole.
func (r *Reader) Glance(data []byte, ask Ask) (reading tiles.Reading, notes []string, err error) {
	s, err := openShot(data)
	if err != nil {
		return reading, nil, err
	}
	in := finding{shot: s, ask: ask}
	f, ok := outline(s.photo, s.picture(), tiles.Shape{}, in.besides())
	if !ok {
		f = middle(s.photo)
	}
	fix := Fix{Correction: correct.None(s.photo.Profile.ToXYZ)}
	if in.chart != nil && in.chart.fit != nil {
		fix.use(in.chart.fit)
	}
	r.mosaic.read(s.photo, f.Quad.Bounds())
	whole := areas(tiles.Shape{}, tiles.Pair{}, f.Middle)[0]
	got := r.mosaic.takeSample(&f, whole, &s.photo.Profile.ToXYZ, nil)
	if got.kept == 0 {
		return reading, nil, photo.Refusal{
			What: "its color cannot be read: the middle is blown out or covered by glare",
			Do:   "take the photo again with less light, or from another side",
		}
	}
	zone := zoneReader{shot: s, ask: ask, fix: &fix}
	reading = zone.read(&f, whole.zone, &got)
	return reading, slices.Concat(s.photo.Notes, fix.Notes), inRange(&reading)
}
