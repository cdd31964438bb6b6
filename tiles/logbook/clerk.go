package logbook

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// Clerk reads a log the way a kind person does: codes whatever their case,
// names for codes, the trade's words in any form. It never does so silently:
// Said tells every liberty it took, Unknown everything it could not read.
type Clerk struct {
	glazes  []tiles.Glaze
	codes   map[string]string // folded code or name → code
	names   []string          // what a typo may have meant
	said    map[string]int
	unknown map[string]*Unknown
	spelled map[string]string // kind and folded word → first spelling
	cache   map[string]string
}

// NewClerk reads by the studio's glaze list.
func NewClerk(glazes []tiles.Glaze) *Clerk {
	c := &Clerk{
		glazes: glazes, codes: map[string]string{}, said: map[string]int{},
		unknown: map[string]*Unknown{}, spelled: map[string]string{}, cache: map[string]string{},
	}
	for _, g := range glazes {
		c.codes[tiles.Fold(g.Name)] = g.Code
		c.names = append(c.names, g.Name, g.Code)
	}
	for _, g := range glazes { // a code wins over another glaze's name
		c.codes[tiles.Fold(g.Code)] = g.Code
	}
	return c
}

// Piece reads one row: codes and fault words come back as the studio's and
// the trade's own; what cannot be read stays as written.
func (c *Clerk) Piece(p tiles.Piece) tiles.Piece {
	p.First = c.glaze(p.First, p.Line)
	p.Second = c.glaze(p.Second, p.Line)
	p.More = slices.Clone(p.More)
	for i := range p.More {
		p.More[i] = c.glaze(p.More[i], p.Line)
	}
	if p.Result == "" && len(p.Faults) > 0 && !slices.ContainsFunc(p.Faults, isFault) {
		p.Result = "good" // "none" below faults
	}
	c.result(p)
	p.Faults = c.faults(p)
	p.Load, p.Shelf = c.spell("load", c.known("load", p.Load)), c.spell("shelf", c.known("shelf", p.Shelf))
	p.Clay, p.Bisque = c.spell("clay", c.known("clay", p.Clay)), c.spell("bisque load", c.known("bisque load", p.Bisque))
	p.How = c.spell("method", method(c.known("method", p.How)))
	p.Maker = c.known("maker", p.Maker)
	return p
}

// Knows says whether the glaze is on the list.
func (c *Clerk) Knows(code string) bool {
	_, ok := c.codes[tiles.Fold(code)]
	return ok
}

// Counts says whether the glazes of the piece are on the list, so that it can
// be counted for and against them.
func (c *Clerk) Counts(p tiles.Piece) bool {
	return c.Knows(p.First) && (p.Second == "" || c.Knows(p.Second))
}

func (c *Clerk) glaze(written string, line int) string {
	key := tiles.Fold(written)
	if key == "" {
		return ""
	}
	code, ok := c.codes[key]
	if !ok {
		code, ok = c.codeAndName(written)
	}
	switch {
	case !ok && nothingWords[key]:
		c.say("glaze", written, "no glaze")
		return ""
	case !ok:
		c.miss("glaze", written, line, c.names)
		return strings.TrimSpace(written)
	}
	if written != code {
		c.say("glaze", written, code)
	}
	return code
}

// twofold is a glaze as forms list it, by code and name: "FM - Fen Mist",
// "FM: Fen Mist", "Fen Mist (FM)".
var twofold = regexp.MustCompile(`^\s*(.+?)\s*(?:\s[-–—]\s|[:(])\s*(.+?)\s*\)?\s*$`)

// codeAndName reads a glaze that is written by code and name in one; both must
// mean the same glaze.
func (c *Clerk) codeAndName(written string) (string, bool) {
	m := twofold.FindStringSubmatch(written)
	if m == nil {
		return "", false
	}
	one, ok := c.codes[tiles.Fold(m[1])]
	other, also := c.codes[tiles.Fold(m[2])]
	return one, ok && also && one == other
}

// result notes a result that says nothing: such a piece would otherwise be
// taken for one that waits, without a word.
func (c *Clerk) result(p tiles.Piece) {
	key := tiles.Fold(p.Result)
	if key == "" || goodWords[key] || waitingWords[key] || isFaulty(p.Result) || slices.ContainsFunc(p.Faults, isFault) {
		return
	}
	c.miss("result", p.Result, p.Line, resultWords)
}

// faults reads the fault words; a piece said to be faulty without a word gets
// the word for that, one said to be good gets none.
func (c *Clerk) faults(p tiles.Piece) []string {
	var words []string
	for _, written := range p.Faults {
		if !isFault(written) {
			continue
		}
		w := c.fault(written, p.Line)
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	if len(words) == 0 && isFaulty(p.Result) {
		if w, ok := wordForms[tiles.Fold(p.Result)]; ok {
			return []string{w}
		}
		return []string{unnamed}
	}
	return words
}

func (c *Clerk) fault(written string, line int) string {
	key := tiles.Fold(written)
	w, ok := wordForms[key]
	if !ok {
		c.miss("fault", written, line, faultNames)
		return c.spell("fault", written)
	}
	if key != w {
		c.say("fault", written, w)
	}
	return w
}

// known leaves out what only says that nobody knows.
func (c *Clerk) known(what, written string) string {
	if !notKnown[tiles.Fold(written)] {
		return written
	}
	c.say(what, written, "not known")
	return ""
}

// spell gives words that differ by case or spaces alone the spelling that
// came first.
func (c *Clerk) spell(what, written string) string {
	if written == "" {
		return ""
	}
	key := what + "\x00" + tiles.Fold(written)
	first, ok := c.spelled[key]
	if !ok {
		first = strings.Join(strings.Fields(written), " ")
		c.spelled[key] = first
	}
	if written != first {
		c.say(what, written, first)
	}
	return first
}

func (c *Clerk) say(what, written, read string) {
	c.said[fmt.Sprintf("%s “%s” read as %s", what, written, read)]++
}

// Said lists the liberties taken, sorted: "glaze “quarry milk” read as QM, 14 times".
func (c *Clerk) Said() []string {
	lines := make([]string, 0, len(c.said))
	for what, times := range c.said {
		if times > 1 {
			what += fmt.Sprintf(", %d times", times)
		}
		lines = append(lines, what)
	}
	sort.Strings(lines)
	return lines
}

// Batches reads the glazes of a bucket record.
func (c *Clerk) Batches(batches []tiles.Batch) []tiles.Batch {
	read := make([]tiles.Batch, len(batches))
	for i, b := range batches {
		b.Glaze = c.glaze(b.Glaze, 0)
		read[i] = b
	}
	return read
}
