package bench

import (
	"encoding/json"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

// partForm asks how much of the wall is made first.
type partForm struct {
	Glazes, MostGlazes     int // chosen, and all there are
	Partners, MostPartners int
	Both                   bool
	Says                   string // what that asks for
	Seen                   string // of wall.yaml
	Small                  bool   // too few glazes to choose from
}

func newPartForm(p run.Planned, cost run.Cost, seen string) partForm {
	f := partForm{Both: p.Wall.Part.Both, Seen: seen}
	for _, g := range p.Wall.Glazes {
		if !g.Retired {
			f.MostGlazes++
		}
	}
	f.MostPartners, f.Small = f.MostGlazes-1, f.MostGlazes < 3
	f.Glazes, f.Partners = allOr(p.Wall.Part.Glazes, f.MostGlazes), allOr(p.Wall.Part.Pairs, f.MostPartners)
	f.Says = sayCost(cost)
	return f
}

// allOr is what a setting asks for, whose 0 is all.
func allOr(n, all int) int {
	if n <= 0 || n > all {
		return all
	}
	return n
}

// sayCost says what a part asks of a studio.
func sayCost(c run.Cost) string {
	if c.Tiles == 0 {
		return "Nothing new is to be made."
	}
	return strings.Join(append([]string{english.Count(c.Tiles, "tile", "tiles") + " to make"}, c.Words()...), ", ") + "; " +
		english.Hours(c.Hours*60) + " of work from clay to wall."
}

// partOf reads what was chosen; all of them is 0, so that glazes which come
// later are made too.
func partOf(a *asked) (tiles.Portion, error) {
	var part tiles.Portion
	for name, into := range map[string]*int{"glazes": &part.Glazes, "partners": &part.Pairs} {
		n, err := strconv.Atoi(a.FormValue(name))
		if err != nil || n < 1 {
			return part, tiles.Problem{File: "wall.yaml", What: "the part's " + name + " is not a number from 1", Do: "choose how many"}
		}
		if most, err := strconv.Atoi(a.FormValue("most-" + name)); err != nil || n < most {
			*into = n
		}
	}
	part.Both = a.FormValue("both") != ""
	return part, nil
}

// partCost answers while a slider moves.
func (b *Bench) partCost(a *asked) error {
	part, err := partOf(a)
	if err != nil {
		return err
	}
	cost, err := run.PartCost(a.dir, part)
	if err != nil {
		return err
	}
	a.w.Header().Set("Content-Type", "application/json")
	return json.NewEncoder(a.w).Encode(map[string]string{"says": sayCost(cost)})
}

// beginPart keeps the part in wall.yaml.
func (b *Bench) beginPart(a *asked) (string, error) {
	part, err := partOf(a)
	if err != nil {
		return "", err
	}
	if err := run.Part(a.dir, a.FormValue("seen"), part); err != nil {
		return "", err
	}
	said := "The whole wall is asked for: kept in wall.yaml."
	if part.Glazes > 0 || part.Pairs > 0 {
		said = "The wall is begun with " + part.String() + ": kept in wall.yaml."
	}
	return b.notes.leave("/plan", note{Said: []string{said + " What the plan would do now stands below; it is not written yet."}}), nil
}
