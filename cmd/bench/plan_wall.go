package bench

import (
	"net/url"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/run"
)

// wallGrid is the wall as it is planned: a row a first glaze, a column a second.
type wallGrid struct {
	Across []gridHead
	Rows   []gridRow
}

type gridHead struct{ Code, Name string }

type gridRow struct {
	gridHead
	Cells []gridCell
}

// gridCell is one pair: a link to all that can be said and done about it.
type gridCell struct {
	Ask   string // "QM,LR"
	Shown string // "17", "17!", "skip", "later"
	Says  string // the same in words
	Class string
}

func newWallGrid(p run.Planned) wallGrid {
	w := p.Wall
	skipped, careful := verdicts(p.Skipped), verdicts(p.Cautions)
	own := map[tiles.Pair]tiles.Tile{}
	for _, t := range w.Tiles {
		if have, ok := own[t.Key()]; t.Own() && (!ok || have.Status == tiles.Retired) {
			own[t.Key()] = t
		}
	}
	var g wallGrid
	for _, first := range w.Glazes {
		if first.Retired {
			continue
		}
		head := gridHead{first.Code, first.Name}
		g.Across = append(g.Across, head)
		row := gridRow{gridHead: head}
		for _, second := range w.Glazes {
			if second.Retired {
				continue
			}
			pair := tiles.Pair{First: first.Code, Second: second.Code}
			if _, double := own[pair.Key()]; pair.Double() && !double {
				pair.Second = ""
			}
			t, made := own[pair.Key()]
			row.Cells = append(row.Cells, newGridCell(pair, t, made, skipped[pair.Key()], careful[pair.Key()]))
		}
		g.Rows = append(g.Rows, row)
	}
	return g
}

func verdicts(vs []plan.Verdict) map[tiles.Pair]bool {
	out := map[tiles.Pair]bool{}
	for _, v := range vs {
		out[v.Pair.Key()] = true
	}
	return out
}

func newGridCell(pair tiles.Pair, t tiles.Tile, made, skip, care bool) gridCell {
	c := gridCell{Ask: strings.TrimSuffix(pair.First+","+pair.Second, ",")}
	switch {
	case skip || made && t.Status == tiles.Skipped:
		c.Shown, c.Says, c.Class = "skip", "skipped", "out"
	case !made:
		c.Shown, c.Says, c.Class = "later", "not planned yet", "out"
	case t.Status == tiles.Retired:
		c.Shown, c.Says, c.Class = "retired", "retired", "out"
	default:
		c.Shown, c.Says, c.Class = t.Number.String(), "tile "+t.Number.String()+", "+string(t.Status), string(t.Status)
	}
	if care && c.Class != "out" {
		c.Shown, c.Says = c.Shown+"!", c.Says+", made with care"
	}
	c.Says = pair.String() + ": " + c.Says
	return c
}

// pairAsked is the pair that was clicked: why it is as it is, and what may be
// set about it.
type pairAsked struct {
	Wrong         string
	Said          string
	Ask           string
	Why           []plan.Line
	First, Second string
	Two           bool   // two glazes: a rule can be for them
	Do            string // what holds now
	Reason        string // of the rule for just this pair
	Seen          string // of wall.yaml
}

// newPairAsked explains the pair that the address names; nil = it names none.
func newPairAsked(a *asked, p run.Planned, seen string) *pairAsked {
	what := a.FormValue("pair")
	if what == "" {
		return nil
	}
	e, err := run.Explain(a.dir, what)
	if err != nil {
		return &pairAsked{Wrong: "There is no tile and no glaze of that name on this wall: choose a pair below.", Ask: what}
	}
	own, _, _ := run.OwnRule(p.Wall, e.Pair)
	return &pairAsked{Said: e.Said, Ask: what, Why: e.Why, First: e.Pair.First, Second: e.Pair.Second,
		Two: !e.Pair.Single() && !e.Pair.Double(), Do: plan.Judge(p.Wall.Settings, p.Wall.Glazes, e.Pair).Do, Reason: own.Reason, Seen: seen}
}

// rulePair sets what holds for one pair.
func (b *Bench) rulePair(a *asked) (string, error) {
	r := tiles.Rule{First: a.FormValue("first"), Second: a.FormValue("second"), Do: a.FormValue("do"), Reason: strings.TrimSpace(a.FormValue("reason"))}
	if r.Do != plan.Skip && r.Do != plan.Caution && r.Do != plan.Allow {
		return "", tiles.Problem{File: "wall.yaml", What: "it was not said whether the pair is made", Do: "choose one of the three"}
	}
	if err := run.Rule(a.dir, a.FormValue("seen"), r); err != nil {
		return "", err
	}
	words := map[string]string{plan.Skip: "is skipped", plan.Caution: "is made with care", plan.Allow: "is made"}[r.Do]
	pair := tiles.Pair{First: r.First, Second: r.Second}
	return b.notes.leave("/plan?pair="+url.QueryEscape(r.First+","+r.Second), note{Said: []string{
		pair.String() + " " + words + ": kept in wall.yaml. What the plan would do now stands below; it is not written yet."}}), nil
}
