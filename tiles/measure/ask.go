package measure

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// method changes whenever the same photo would be read otherwise than before,
// so that photos are measured again after an update.
const method = "1"

// Ask is what is known of a photo before it is opened.
type Ask struct {
	Wall  tiles.Wall
	Photo string // file name below tiles/photos, with forward slashes
}

// Hash is of everything that decides a photo's readings: its bytes, the wall's
// tile and photography, and the method. Equal hashes, equal readings.
func (a Ask) Hash(data []byte) string {
	h := sha256.New()
	fmt.Fprintf(h, "%s|%s|%+v|%+v|", method, a.Photo, a.Wall.Settings.Tile, a.Wall.Photo)
	if n, ok := tiles.NumberFromPhoto(a.Photo); ok {
		t, _ := a.Wall.Tile(n)
		fmt.Fprintf(h, "%d|%+v|", n, t.Pair)
	}
	for _, b := range a.byHand() {
		fmt.Fprintf(h, "%d %v %v|", b.Tile, b.Drawn, b.Outline)
	}
	h.Write(data)
	return hex.EncodeToString(h.Sum(nil)[:12])
}

// byHand is what people have set for this photo.
func (a Ask) byHand() []tiles.ByHand {
	var out []tiles.ByHand
	for _, b := range a.Wall.Hand {
		if b.Photo == a.Photo {
			out = append(out, b)
		}
	}
	return out
}
