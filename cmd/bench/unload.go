package bench

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// outPart is a load's shelves with a mark for every tile.
type outPart struct {
	Loads   []link
	Load    int
	Shelves []outShelf
}

// outShelf is one shelf, drawn from above, its front edge below; all in mm.
type outShelf struct {
	Name         string
	Width, Depth float64
	Box          string // of the drawing
	Round, Half  bool
	MidX, MidY   float64
	Places       []outTile
}

// outTile is a tile on a shelf.
type outTile struct {
	Number           tiles.Number
	Says             string
	Came             run.CameOut
	X, Y, W, H       float64 // its corner, from the left and the back
	MidX, MidY       float64
	Wave, Cross      string // drawn over a tile that ran, that broke
	Well, Ran, Broke bool
}

// outPage shows a load: the one named, or else the first that waits.
func outPage(r run.Records, named string) recordsPage {
	page := recordsFrame("unload")
	page.reads = []string{record.PlanFile}
	part := &outPart{}
	loads := plan.Loads(r.Wall)
	part.Load, _ = strconv.Atoi(named)
	for _, l := range loads {
		if part.Load == 0 && !l.Fired {
			part.Load = l.Number
		}
	}
	for _, l := range loads {
		words := fmt.Sprintf("Load %d", l.Number)
		if l.Fired {
			words += ", fired"
		}
		part.Loads = append(part.Loads, link{Href: fmt.Sprintf("/records?part=unload&load=%d", l.Number), Text: words, Current: l.Number == part.Load})
		if l.Number == part.Load {
			part.Shelves = outShelves(r.Wall, withBroken(r.Wall, l))
		}
	}
	page.Out = part
	return page
}

// withBroken puts the tiles that broke back on the load's shelves: the plan has
// them no longer, and a slip of the finger has to be mended.
func withBroken(w tiles.Wall, l plan.Load) plan.Load {
	for _, t := range w.Tiles {
		if t.Load != l.Number || run.Came(t) != run.OutBroken {
			continue
		}
		for i := range l.Shelves {
			if l.Shelves[i].Name == t.Shelf {
				shape := plan.Placement{Tile: t, X: t.X, Y: t.Y, Width: w.Settings.Tile.Width, Depth: w.Settings.Tile.Foot}
				if len(l.Shelves[i].Places) > 0 {
					shape.Width, shape.Depth = l.Shelves[i].Places[0].Width, l.Shelves[i].Places[0].Depth
				}
				l.Shelves[i].Places = append(l.Shelves[i].Places, shape)
			}
		}
	}
	return l
}

func outShelves(w tiles.Wall, l plan.Load) []outShelf {
	var out []outShelf
	for i := len(l.Shelves) - 1; i >= 0; i-- { // the top one is unloaded first
		s := l.Shelves[i]
		if len(s.Places) == 0 {
			continue
		}
		o := outShelf{Name: s.Name, Width: s.Width, Depth: s.Depth, Round: s.Shape == "round", Half: s.Shape == "half-round", MidX: s.Width / 2, MidY: s.Depth / 2}
		o.Box = fmt.Sprintf("-2 -2 %.0f %.0f", s.Width+4, s.Depth+4)
		for _, p := range s.Places {
			o.Places = append(o.Places, outPlace(w, s, p))
		}
		out = append(out, o)
	}
	return out
}

func outPlace(w tiles.Wall, s plan.Shelf, p plan.Placement) outTile {
	came := run.Came(p.Tile)
	o := outTile{Number: p.Tile.Number, Says: w.Say(p.Tile.Pair), Came: came,
		X: p.X - p.Width/2, Y: s.Depth - p.Y - p.Depth/2, W: p.Width, H: p.Depth, MidX: p.X, MidY: s.Depth - p.Y,
		Well: came == run.OutWell, Ran: came == run.OutRan, Broke: came == run.OutBroken}
	o.Wave = fmt.Sprintf("M%.1f %.1fq%.1f -8 %.1f 0t%.1f 0", o.X, o.MidY, o.W/4, o.W/2, o.W/2)
	o.Cross = fmt.Sprintf("M%.1f %.1fl%.1f %.1fm-%.1f 0l%.1f -%.1f", o.X, o.Y, o.W, o.H, o.W, o.W, o.H)
	return o
}

// unload writes how the tiles came out. A tile that was not marked stays as it is.
func (b *Bench) unload(a *asked) (string, error) {
	if err := a.ParseForm(); err != nil {
		return "", err
	}
	out := map[tiles.Number]run.CameOut{}
	for name, values := range a.PostForm {
		digits, ok := strings.CutPrefix(name, "tile")
		n, err := tiles.ParseNumber(digits)
		if !ok || err != nil || len(values) != 1 {
			continue
		}
		switch how := run.CameOut(values[0]); how {
		case run.OutWell, run.OutRan, run.OutBroken, run.OutNot:
			out[n] = how
		}
	}
	did, err := run.Unload(a.dir, out)
	if err != nil {
		return "", err
	}
	said := note{Said: []string{fmt.Sprintf("%s came out well, %d ran, %d broke, %d not fired yet; %s of the plan changed.",
		english.Count(did.Well, "tile", "tiles"), did.Ran, did.Broken, did.Not, english.Count(did.Changed, "row", "rows"))}}
	if did.Broken > 0 {
		said.Next = &link{Href: "/plan", Text: "Let the plan number others for those that broke"}
	} else if did.Well+did.Ran > 0 {
		said.Next = &link{Href: "/photographs", Text: "Photograph the tiles"}
	}
	return b.notes.leave("/records?part=unload&load="+strconv.Itoa(atoi(a.FormValue("load"))), said), nil
}

func atoi(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}
