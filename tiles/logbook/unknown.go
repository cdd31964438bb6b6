package logbook

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Unknown is a writing that matches nothing.
type Unknown struct {
	What    string `json:"what"` // "glaze", "fault" or "result"
	Written string `json:"written"`
	Nearest string `json:"nearest,omitempty"` // what it may mean; "" where nothing is near
	Lines   []int  `json:"lines"`             // of the log, at most unknownLines of them
	Times   int    `json:"times"`
}

const unknownLines = 20

// miss notes a writing that matches nothing.
func (c *Clerk) miss(what, written string, line int, known []string) {
	key := what + "\x00" + tiles.Fold(written)
	u := c.unknown[key]
	if u == nil {
		u = &Unknown{What: what, Written: strings.TrimSpace(written)}
		if near, ok := Nearest(written, known); ok {
			u.Nearest = c.meant(what, near)
		}
		c.unknown[key] = u
	}
	u.Times++
	if len(u.Lines) < unknownLines && line > 0 && !slices.Contains(u.Lines, line) {
		u.Lines = append(u.Lines, line)
	}
}

func (c *Clerk) meant(what, near string) string {
	switch what {
	case "fault":
		return wordForms[near]
	case "result":
		return near
	}
	g, _ := tiles.FindGlaze(c.glazes, c.codes[tiles.Fold(near)])
	return g.Name + " (" + g.Code + ")"
}

// Unknown lists what could not be read, glazes first, in alphabetical order.
func (c *Clerk) Unknown() []Unknown {
	list := make([]Unknown, 0, len(c.unknown))
	for _, u := range c.unknown {
		list = append(list, *u)
	}
	sort.Slice(list, func(i, j int) bool {
		if list[i].What != list[j].What {
			return list[i].What > list[j].What
		}
		return list[i].Written < list[j].Written
	})
	return list
}

// Say says what is unknown in one sentence.
func (u Unknown) Say() string {
	known := map[string]string{"glaze": "on the glaze list", "fault": "among the fault words", "result": "a result"}[u.What]
	say := fmt.Sprintf("“%s” is not %s", u.Written, known)
	if u.What == "result" && u.Nearest == "" {
		return say + ": write good, or the fault below faults; until then the piece counts as waiting"
	}
	if u.Nearest != "" {
		say += ": did you mean " + u.Nearest + "?"
	}
	return say
}

// Where says how often it stands in the log and in which lines.
func (u Unknown) Where() string {
	times := english.Count(u.Times, "time", "times")
	if len(u.Lines) == 0 {
		return times
	}
	return times + ", " + inLines(u.Lines, u.Times)
}
