package measure

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// method changes whenever the same photo would be read otherwise than before,
// so that photos are measured again after an update.
const method = "8"

// Ask is what is known of a photo before it is opened.
type Ask struct {
	Wall  tiles.Wall
	View  bool   // make a view of what was used; it changes no reading
	Photo string // file name below tiles/photos, with forward slashes

	// Patches are of the reference that may stand in the photo: one is a grey
	// card, several are a chart or a strip, in the order they stand on it.
	Patches []color.Patch
}

// Hash is of everything that decides a photo's readings: its bytes (by their
// SHA-256 in hexadecimal), the wall's tile and photography, what was set by
// hand, the method, and, for a photo that several tiles were read from, all
// of the plan and the controls. Equal hashes, equal readings.
// before is what was read from the photo before, or is now.
func (a Ask) Hash(sum string, before []tiles.Reading) string {
	h := sha256.New()
	fmt.Fprintf(h, "%s|%s|%+v|%+v|", method, a.Photo, a.Wall.Settings.Tile, a.Wall.Photo)
	if n, ok := tiles.NumberFromPhoto(a.Photo); ok {
		t, _ := a.Wall.Tile(n)
		fmt.Fprintf(h, "%d|%+v|", n, t.Pair)
	}
	for _, b := range a.byHand() {
		fmt.Fprintf(h, "%d %v %v %v|", b.Tile, b.Drawn, b.Card, b.Outline)
	}
	fmt.Fprintf(h, "%v|", a.Patches)
	if ofSeveral(before) {
		by := tiles.ByTile(a.Wall.Readings)
		for _, t := range a.Wall.Tiles {
			known, _ := a.trusted(t, by[t.Number])
			fmt.Fprintf(h, "%d %v %v %.2f %.2f %.2f|", t.Number, t.Pair, t.Status, known.L, known.A, known.B)
		}
	}
	fmt.Fprint(h, sum)
	return method + "-" + hex.EncodeToString(h.Sum(nil)[:12])
}

// Sum is the hash of a photo's bytes.
func Sum(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Outdated says that a reading's hash is of an earlier method: its photo would
// be read otherwise now, though nothing else has changed.
func Outdated(hash string) bool {
	return hash != "" && !strings.HasPrefix(hash, method+"-")
}

// ofSeveral says that a photo gave readings of several tiles.
func ofSeveral(rs []tiles.Reading) bool {
	for _, r := range rs {
		if r.Tile != rs[0].Tile {
			return true
		}
	}
	return false
}

// byHand is what people have set for this photo.
func (a Ask) byHand() []tiles.ByHand {
	var out []tiles.ByHand
	for _, b := range a.Wall.Hand {
		if tiles.SamePhoto(b.Photo, a.Photo) {
			out = append(out, b)
		}
	}
	return out
}
