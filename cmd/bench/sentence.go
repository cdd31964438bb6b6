package bench

import (
	"errors"
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// sentence is a problem beside the field that it is about.
func sentence(p tiles.Problem) string {
	p = p.OnPage()
	says := p.What
	if p.Do != "" {
		says += "; " + p.Do
	}
	return upperFirst(says) + "."
}

func upperFirst(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// plainly is an error as a sentence beside its field.
func plainly(err error) string {
	var ps tiles.Problems
	var one tiles.Problem
	switch {
	case errors.As(err, &ps) && len(ps) > 0:
		one = ps[0]
	case errors.As(err, &one):
	default:
		return upperFirst(err.Error()) + "."
	}
	if one.Line > 0 {
		one.What = fmt.Sprintf("%s, line %d: %s", one.File, one.Line, one.What)
	} else {
		one.What = one.File + ": " + one.What
	}
	return sentence(one)
}
