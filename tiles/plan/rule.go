package plan

import (
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// What a rule may say of a pair.
const (
	Skip    = "skip"    // no tile is made
	Caution = "caution" // a tile is made, with care
	Allow   = "allow"   // a tile is made; what earlier rules said is set aside
)

// BuiltIn is the rules every wall starts with. They speak about the traits a
// glaze list names; common practice in shared studios, no source. The
// teacher's own rules come after them, and the last rule that fits decides.
var BuiltIn = []tiles.Rule{
	{First: string(tiles.Runny), Second: string(tiles.Runny), Do: Caution,
		Reason: "both run: leave 25 mm (1 in) bare at the foot, waste slab under it"},
	{Second: string(tiles.Crawls), Do: Caution,
		Reason: "the second crawls: dip it thin, over a coat that is touch-dry"},
	{First: string(tiles.Slick), Do: Caution,
		Reason: "the first dries slick: the second may slide off"},
	{Either: string(tiles.Soluble), Do: Caution,
		Reason: "holds soluble salts: gloves, and never dip twice to mend a coat"},
	{Either: string(tiles.NotFood), Do: Caution,
		Reason: "not for surfaces that touch food"},
	{First: string(tiles.NeverFirst), Do: Skip,
		Reason: "the first never goes under another glaze here"},
	{Second: string(tiles.NeverSecond), Do: Skip,
		Reason: "the second never goes over another glaze here"},
}

// Verdict is what the rules say of one pair.
type Verdict struct {
	tiles.Pair
	Do      string   // Skip, Caution or Allow
	Grounds []Ground // the rules that decided, in order; none = no rule speaks of it
}

// Ground is one rule that decided, in words.
type Ground struct {
	Reason string
	Line   int // of wall.yaml; 0 = a rule every wall starts with
	rule   int
}

// Reason is the grounds in one line.
func (v Verdict) Reason() string {
	reasons := make([]string, len(v.Grounds))
	for i, g := range v.Grounds {
		reasons[i] = g.Reason
	}
	return strings.Join(reasons, "; ")
}

// Judge says what the rules make of a pair. Rules are about two coats: a
// single is never skipped, and a glaze nobody should use is retired instead.
func Judge(s tiles.Settings, glazes []tiles.Glaze, p tiles.Pair) Verdict {
	return newJudge(s, glazes).pair(p)
}

// judge holds the rules with their conditions looked up once a glaze.
type judge struct {
	rules  []tiles.Rule
	index  map[string]int
	first  [][]bool // rule × glaze: the condition on the first holds
	second [][]bool
	either [][]bool
}

func newJudge(s tiles.Settings, glazes []tiles.Glaze) *judge {
	j := &judge{index: make(map[string]int, len(glazes))}
	j.rules = append(append(j.rules, BuiltIn...), s.Rules...)
	for i, g := range glazes {
		j.index[tiles.CodeKey(g.Code)] = i
	}
	for _, r := range j.rules {
		j.first = append(j.first, holds(r.First, glazes))
		j.second = append(j.second, holds(r.Second, glazes))
		j.either = append(j.either, holds(r.Either, glazes))
	}
	return j
}

// holds says for each glaze whether the condition names it, by code or trait.
func holds(condition string, glazes []tiles.Glaze) []bool {
	fit := make([]bool, len(glazes))
	for i, g := range glazes {
		fit[i] = condition == "" || tiles.SameCode(condition, g.Code) || g.Has(tiles.Trait(strings.ToLower(condition)))
	}
	return fit
}

func (j *judge) pair(p tiles.Pair) Verdict {
	v := Verdict{Pair: p, Do: Allow}
	a, okA := j.index[tiles.CodeKey(p.First)]
	b, okB := j.index[tiles.CodeKey(p.Second)]
	if p.Single() || !okA || !okB {
		return v
	}
	for i, r := range j.rules {
		if !j.first[i][a] || !j.second[i][b] || !(j.either[i][a] || j.either[i][b]) {
			continue
		}
		if r.Do != Caution || v.Do == Skip {
			v.Grounds = nil
		}
		v.Do = r.Do
		v.Grounds = append(j.without(v.Grounds, r), Ground{Reason: reasonOf(r), Line: r.Line, rule: i})
	}
	return v
}

// without leaves out the grounds of rules with the same conditions: the later
// one says it in the teacher's own words.
func (j *judge) without(grounds []Ground, r tiles.Rule) []Ground {
	return slices.DeleteFunc(grounds, func(g Ground) bool {
		o := j.rules[g.rule]
		return strings.EqualFold(o.First, r.First) && strings.EqualFold(o.Second, r.Second) && strings.EqualFold(o.Either, r.Either)
	})
}

// reasonOf is the rule's reason; a rule without one says itself.
func reasonOf(r tiles.Rule) string {
	if r.Reason != "" {
		return r.Reason
	}
	var on []string
	for _, c := range [][2]string{{"first", r.First}, {"second", r.Second}, {"either", r.Either}} {
		if c[1] != "" {
			on = append(on, c[0]+" "+c[1])
		}
	}
	if len(on) == 0 {
		return "a rule for every pair"
	}
	return "a rule for " + strings.Join(on, ", ")
}
