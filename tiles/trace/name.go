package trace

import (
	"github.com/twodip/twodip/tiles"
)

// phrase is how a suspect is spoken of: "9 of 11 pieces WITH crawled; 4 of
// 160 WITHOUT".
type phrase struct {
	with, without string
}

func (r *Report) glaze(code string) string {
	if g, ok := tiles.FindGlaze(r.glazes, code); ok {
		return g.Name
	}
	return code
}

// Name is the suspect by itself: "batch 7 of Kiln Moss as second".
func (r *Report) Name(s Suspect) string {
	switch s.Kind {
	case KindPair:
		return tiles.Wall{Glazes: r.glazes}.Say(tiles.Pair{First: s.Glaze, Second: s.Second})
	case KindFirst:
		return r.glaze(s.Glaze) + " as first"
	case KindSecond:
		return r.glaze(s.Glaze) + " as second"
	case KindGlaze:
		return r.glaze(s.Glaze) + ", first or second"
	case KindBatch:
		return "batch " + s.Name + " of " + r.glaze(s.Glaze)
	case KindBatchFirst:
		return "batch " + s.Name + " of " + r.glaze(s.Glaze) + " as first"
	case KindBatchSecond:
		return "batch " + s.Name + " of " + r.glaze(s.Glaze) + " as second"
	case KindPlace:
		return "shelf " + s.Shelf + " of load " + s.Name
	case KindMethod:
		return "glaze put on “" + s.Name + "”"
	}
	return string(s.Kind) + " " + s.Name
}

func (r *Report) phrase(s Suspect) phrase {
	switch s.Kind {
	case KindPlace:
		return phrase{"on " + r.Name(s), "elsewhere"}
	case KindShelf:
		return phrase{"on shelf " + s.Name, "on other shelves"}
	case KindMethod:
		return phrase{"glazed “" + s.Name + "”", "glazed another way"}
	case KindClay:
		return phrase{"of clay " + s.Name, "of other clays"}
	case KindBisque:
		return phrase{"from bisque load " + s.Name, "from other bisque loads"}
	case KindLoad:
		return phrase{"in load " + s.Name, "in other loads"}
	case KindSchedule:
		return phrase{"on schedule " + s.Name, "on other schedules"}
	case KindKiln:
		return phrase{"in kiln " + s.Name, "in other kilns"}
	}
	return phrase{"with " + r.Name(s), "without"}
}
