package measure

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// Advice about controls.
const (
	farFromControls = 25.0 // of a* and b* outside all controls, from where a color is in so much more doubt that it is said
	mostAdvised     = 2    // tiles that are named
)

// moreControls says which tiles of a board, known as the controls are, would take
// most doubt from the others: those of the strongest colors that lie outside the
// controls', each in its own direction. "" = none is needed.
func moreControls(fix *Fix, rs []tiles.Reading) string {
	if fix.Class() != tiles.ClassControls {
		return ""
	}
	var named []string
	var more []color.Lab
	for len(named) < mostAdvised {
		best, far := -1, farFromControls
		for i, r := range rs {
			if d := fix.Outside(color.Lab{L: r.L, A: r.A, B: r.B}, more...); d > far {
				best, far = i, d
			}
		}
		if best < 0 {
			break
		}
		named = append(named, rs[best].Tile.String())
		more = append(more, color.Lab{L: rs[best].L, A: rs[best].A, B: rs[best].B})
	}
	if len(named) == 0 {
		return ""
	}
	return fmt.Sprintf("colors stronger than all controls are in wider doubt: photograph %s on the mat with a chart, and they are controls too", list("tile", named))
}
