package record

import (
	"fmt"
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/table"
)

// headings finds a table's columns by the studio's own headings first, then by
// ours, then by other usual ones. What it read another way it notes.
type headings struct {
	own   map[string]string // from wall.yaml, folded → ours
	usual map[string]string // folded → ours
}

// foldHeading makes headings comparable: "Clay_Body " is "clay body".
func foldHeading(s string) string {
	s = strings.NewReplacer("_", " ", "-", " ", ".", " ", "#", " ", "?", " ", ":", " ").Replace(strings.ToLower(s))
	return strings.Join(strings.Fields(s), " ")
}

func newHeadings(names []string, own map[string]string, usual map[string]string) (headings, tiles.Problems) {
	h := headings{own: map[string]string{}, usual: map[string]string{}}
	known := map[string]bool{}
	for _, n := range names {
		known[n] = true
		h.usual[foldHeading(n)] = n
	}
	for from, to := range usual {
		h.usual[from] = to
	}
	var ps tiles.Problems
	for from, to := range own {
		target := h.usual[foldHeading(to)]
		if !known[target] {
			ps = append(ps, tiles.Problem{File: "wall.yaml", What: fmt.Sprintf("log: headings: %q stands for %q, which is no column of the log", from, to),
				Do: "the columns are " + strings.Join(names, ", ")})
			continue
		}
		h.own[foldHeading(from)] = target
	}
	sort.Slice(ps, func(i, j int) bool { return ps[i].What < ps[j].What })
	return h, ps
}

// place says at which column of the table each of our names stands; notes says
// which headings were read as another, left which were not known.
func (h headings) place(t *table.Table) (at map[string]int, notes, left []string, ps tiles.Problems) {
	at = map[string]int{}
	for i, written := range t.Columns {
		key := foldHeading(written)
		name, ok := h.own[key]
		if !ok {
			name, ok = h.usual[key]
		}
		switch {
		case key == "":
			continue
		case !ok:
			left = append(left, strings.TrimSpace(written))
			continue
		case !strings.EqualFold(strings.TrimSpace(written), name):
			notes = append(notes, fmt.Sprintf("column “%s” read as %s", strings.TrimSpace(written), name))
		}
		if other, twice := at[name]; twice {
			ps = append(ps, t.Problem(t.Line, fmt.Sprintf("the columns %q and %q both stand for %s", t.Columns[other], written, name), "rename one of them"))
		}
		at[name] = i
	}
	return at, notes, left, ps
}

// UnknownHeadings are the columns of a table of pieces whose headings are not
// known to be the log's.
func UnknownHeadings(t *table.Table, s tiles.LogSettings) (at []int) {
	h, _ := newHeadings(LogColumns, s.Headings, usualHeadings)
	for i, written := range t.Columns {
		key := foldHeading(written)
		if key != "" && h.own[key] == "" && h.usual[key] == "" {
			at = append(at, i)
		}
	}
	return at
}
