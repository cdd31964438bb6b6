package tiles

import (
	"fmt"
	"strings"
)

// Problem is one thing wrong with what a person wrote, said so that they can
// mend it: which file, which line, what is wrong, what to do.
type Problem struct {
	File string `json:"file"` // path inside the wall, forward slashes
	Line int    `json:"line"` // 1 and up; 0 = the file as a whole
	What string `json:"what"` // what is wrong: lower case, no full stop
	Do   string `json:"do"`   // what to do: imperative, no full stop; "" = What says it
	Page string `json:"-"`    // what to do on the bench, where Do names a command; "" = Do
}

// Error is the problem in one line: "content/glazes.csv:4: code A is used twice; give one of them another code".
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		fmt.Fprintf(&b, ":%d", p.Line)
	}
	b.WriteString(": " + p.What)
	if p.Do != "" {
		b.WriteString("; " + p.Do)
	}
	return b.String()
}

// OnPage is the problem as a page of the bench says it: there nobody types a
// command.
func (p Problem) OnPage() Problem {
	if p.Page != "" {
		p.Do = p.Page
	}
	return p
}

// Problems is every problem found in one reading, in the order of the file.
type Problems []Problem

// mostSaid is how many problems are said: who has mended these asks again.
const mostSaid = 20

// Error gives one line a problem, of the first twenty, and counts the rest.
func (ps Problems) Error() string {
	lines := make([]string, 0, mostSaid+1)
	for i, p := range ps {
		if left := len(ps) - i; i == mostSaid && left > 1 {
			lines = append(lines, fmt.Sprintf("… and %d more", left))
			break
		}
		lines = append(lines, p.Error())
	}
	return strings.Join(lines, "\n")
}

// Brief is the first few problems and, in one more, how many are left: for a run
// that did its work and should not bury it under what it could not find.
func (ps Problems) Brief(shown int) Problems {
	if len(ps) <= shown+1 {
		return ps
	}
	more := Problem{File: ps[shown].File, What: fmt.Sprintf("and %d more like it", len(ps)-shown-1), Do: ps[shown].Do, Page: ps[shown].Page}
	return append(ps[:shown:shown], more)
}

// OrNil is nil where there is no problem, so that a caller may return it as an error.
func (ps Problems) OrNil() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}
