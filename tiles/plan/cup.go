package plan

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
)

// togetherWords says how many loads are dipped in one go.
func togetherWords(w tiles.Wall) string {
	most := 1
	for _, s := range Sessions(w) {
		most = max(most, len(s))
	}
	if w.Dip.Together > 0 {
		return fmt.Sprint(most)
	}
	return fmt.Sprintf("%d, so that a cup serves %d dips or more", most, cupServes)
}

// What of the glaze may be thrown away in cups before it is worth a word: litres,
// and a share of all.
const (
	manyLitres = 50
	muchOfIt   = 0.4
)

// CupWords says, where much of the glaze is thrown away in second-dip cups,
// how much it is and what to do about it; "" where it is not.
func (m Materials) CupWords(w tiles.Wall) string {
	due := 0
	for _, s := range Sessions(w) {
		due += len(s)
	}
	wasteful := map[tiles.SecondFrom]bool{tiles.SecondCup: true, tiles.SecondTrough: true}
	if m.Thrown < manyLitres && m.Thrown < muchOfIt*m.Litres || m.Cups == 0 || !wasteful[fromOf(w.Dip.SecondFrom)] {
		return ""
	}
	say := fmt.Sprintf("%.0f l of the %.0f l of glaze that is used are left in %d second-dip cups and thrown away, because tiles carry their first glaze into the cup", m.Thrown, m.Litres-m.Standing, m.Cups)
	if len(Sessions(w)) > 1 {
		more := w
		more.Dip.Together = min(due, 2*(due+len(Sessions(w))-1)/len(Sessions(w)))
		then := Need(more)
		say += fmt.Sprintf("; with %d loads dipped in one go it is %.0f l (dip: together)", more.Dip.Together, then.Thrown)
	}
	return say + "; with fewer partners for each glaze there are fewer cups (part: pairs)"
}

// CupFill is the slurry in litres that stands in the cup under the last second
// dip of a session: what is left of it is thrown away.
func CupFill(s tiles.Settings) float64 {
	depth := max(s.Tile.Foot, s.Tile.Thickness)
	across := math.Hypot(s.Tile.Width, depth)
	if s.Tile.Layout == tiles.LayoutSides {
		across = math.Hypot(s.Tile.Height, depth)
	}
	return cylinder(max(s.Dip.Cup, across+beside), secondDepth(s.Tile)+above)
}

// secondDepth is how deep a second dip goes, in mm.
func secondDepth(s tiles.Shape) float64 {
	return s.Coats(tiles.Pair{First: "1", Second: "2"})[1].Depth
}
