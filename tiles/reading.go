package tiles

// Zone is a part of a tile.
type Zone string

// The zones of a tile dipped from two ends or two sides, and the whole face.
const (
	ZoneFirst   Zone = "first"   // first coat only
	ZoneOverlap Zone = "overlap" // second over first
	ZoneSecond  Zone = "second"  // second coat only, on bare clay
	ZoneWhole   Zone = "whole"   // the face as one area
)

// Class says in one word what a reading's color stands on.
type Class string

// The classes of a reading, best first.
const (
	ClassChart    Class = "chart"       // corrected on a chart of known patches
	ClassControls Class = "controls"    // corrected on control tiles of known color
	ClassGrey     Class = "grey"        // corrected on grey or white, grey and black
	ClassCamera   Class = "camera only" // nothing in the picture to correct by: for browsing, not for matching
)

// Part is one of the two main components of a mottled or breaking glaze:
// CIELAB D50/2° and its share of the area, 0–1.
type Part struct {
	L, A, B, Share float64
}

// Reading is what was measured on one photo of one zone of one tile.
// L, A and B are CIELAB (D50, 2° observer, L 0–100) of the mean linear-light
// color of the area.
type Reading struct {
	Tile       Number
	Zone       Zone
	L, A, B    float64
	Carried    Pair    // the codes of both coats as they were when it was read; empty = read before that was kept
	Photo      string  // file name below tiles/photos, with forward slashes
	Spread     float64 // mottling: mean ΔE00 of the area's pixels from the mean
	Correction string  // what corrected it, in words ("none", "grey card", "24 patches")
	Doubt      float64 // ± ΔE00, about 95 %; 0 = not known
	Class      Class
	Profile    string  // the color profile used ("Display P3", "sRGB assumed")
	Kept       float64 // share of the area's pixels that were used, 0–1
	Parts      []Part  // none, or two, larger share first
	Soft       bool    // the picture is soft: Parts are approximate
	Found      string  // how the tile was found: "marks", "outline", "middle", "by hand"
	Taken      string  // when the photo was taken, "2006-01-02 15:04"; "" = not said
	Hash       string  // of the photo's bytes and of what decides its reading: unchanged means nothing to do
	Warning    string  // one sentence, where the reading deserves less trust
	Bytes      string  // begins the SHA-256 of the photo's file: the same photo under another name; "" = not kept yet
	Away       bool    // the photo is not here any more; the reading stays until a person takes it out
}

// Choose picks the reading that stands for a zone: the least doubt, then the
// larger kept share, then the later photo name. A doubt of 0 is not known and
// comes last.
func Choose(rs []Reading, n Number, z Zone) (Reading, bool) {
	var best Reading
	found := false
	for _, r := range rs {
		if r.Tile != n || r.Zone != z {
			continue
		}
		if !found || better(r, best) {
			best, found = r, true
		}
	}
	return best, found
}

// ColorOf picks the reading that stands for a tile: a pair's color is its
// overlap; a single's is its whole face.
func ColorOf(rs []Reading, n Number) (Reading, bool) {
	for _, z := range []Zone{ZoneOverlap, ZoneWhole, ZoneFirst} {
		if r, ok := Choose(rs, n, z); ok {
			return r, true
		}
	}
	return Reading{}, false
}

// ByTile sorts readings by tile, each tile's in the order given.
func ByTile(rs []Reading) map[Number][]Reading {
	by := map[Number][]Reading{}
	for _, r := range rs {
		by[r.Tile] = append(by[r.Tile], r)
	}
	return by
}

func better(a, b Reading) bool {
	switch {
	case a.Doubt != b.Doubt:
		return b.Doubt == 0 || (a.Doubt != 0 && a.Doubt < b.Doubt)
	case a.Kept != b.Kept:
		return a.Kept > b.Kept
	}
	return a.Photo > b.Photo
}
