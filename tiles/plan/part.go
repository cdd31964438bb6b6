package plan

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// portion leaves of the wanted pairs the part the settings ask for: every
// glaze with part.pairs partners as first and as many as second. Singles and
// doubles always stay, and so does every pair that has its number already.
func (e *extension) portion(wanted []tiles.Pair) []tiles.Pair {
	wanted = e.begun(wanted)
	circle := e.circle(wanted)
	n, k := len(circle), e.s.Part.Pairs
	if k <= 0 || k >= n-1 {
		return wanted
	}
	if e.s.Part.Both && k%2 == 1 && n%2 == 1 {
		k++
		e.Notes = append(e.Notes, fmt.Sprintf("part: both orders of %d partners cannot come out even with %d glazes: planned %d partners", k-1, n, k))
	}
	d := newDesign(n, k)
	place := make(map[string]int, n)
	for i, code := range circle {
		place[tiles.CodeKey(code)] = i
	}
	e.fill(d, place, wanted)
	if e.s.Part.Both {
		d.chooseBoth()
	} else {
		d.choose()
	}
	var kept []tiles.Pair
	for _, p := range wanted {
		if p.Single() || p.Double() || d.chosen[place[tiles.CodeKey(p.First)]][place[tiles.CodeKey(p.Second)]] {
			kept = append(kept, p)
		} else {
			e.Later++
		}
	}
	return kept
}

// begun leaves of the wanted pairs those of the glazes that the wall is begun
// with, where part.glazes says how many: the preferred ones, then the list's
// first. Every pair that has its number already stays.
func (e *extension) begun(wanted []tiles.Pair) []tiles.Pair {
	circle := e.circle(wanted)
	if n := e.s.Part.Glazes; n <= 0 || n >= len(circle) {
		return wanted
	}
	in := map[string]bool{}
	for _, code := range circle[:e.s.Part.Glazes] {
		in[tiles.CodeKey(code)] = true
	}
	own, _ := e.standing()
	var kept []tiles.Pair
	for _, p := range wanted {
		if own[p.Key()] || in[tiles.CodeKey(p.First)] && (p.Single() || in[tiles.CodeKey(p.Second)]) {
			kept = append(kept, p)
		} else {
			e.Later++
		}
	}
	return kept
}

// also adds to the kept pairs those asked for by name, where the settings and
// the rules let them be made; all is every pair that may be.
func (e *extension) also(kept, all, asked []tiles.Pair) []tiles.Pair {
	if len(asked) == 0 {
		return kept
	}
	in := make(map[tiles.Pair]bool, len(kept))
	for _, p := range kept {
		in[p.Key()] = true
	}
	for _, p := range all {
		named := slices.ContainsFunc(asked, func(q tiles.Pair) bool { return q.Same(p) })
		if named && !in[p.Key()] {
			kept = append(kept, p)
			e.Later--
		}
	}
	return kept
}

// fill tells the design which pairs may be chosen and which already are.
func (e *extension) fill(d *design, place map[string]int, wanted []tiles.Pair) {
	own, _ := e.standing()
	for _, p := range wanted {
		if p.Single() || p.Double() {
			continue
		}
		i, j := place[tiles.CodeKey(p.First)], place[tiles.CodeKey(p.Second)]
		d.allowed[i][j] = true
		if own[p.Key()] {
			d.fixed[i][j] = true
			d.add(i, j)
		}
	}
}

// circle lists the codes the wanted pairs name, the preferred ones first, so
// that short steps along the circle join preferred glazes with one another.
func (e *extension) circle(wanted []tiles.Pair) []string {
	seen := map[string]bool{}
	var codes []string
	take := func(code string) {
		if !seen[tiles.CodeKey(code)] {
			seen[tiles.CodeKey(code)] = true
			codes = append(codes, code)
		}
	}
	named := map[string]bool{}
	for _, p := range wanted {
		named[tiles.CodeKey(p.First)] = true
		named[tiles.CodeKey(p.Second)] = true
	}
	for _, code := range e.s.Part.Prefer {
		if named[tiles.CodeKey(code)] {
			take(code)
		}
	}
	for _, p := range wanted {
		take(p.First)
		if !p.Single() {
			take(p.Second)
		}
	}
	return codes
}
