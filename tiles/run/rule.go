package run

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/plan"
)

// OwnRule is the rule of wall.yaml for just that ordered pair, and what the
// rules say of the pair without it; ok = there is one.
func OwnRule(w tiles.Wall, p tiles.Pair) (own tiles.Rule, others plan.Verdict, ok bool) {
	s := w.Settings
	s.Rules = slices.DeleteFunc(slices.Clone(w.Rules), func(r tiles.Rule) bool {
		mine := tiles.SameCode(r.First, p.First) && tiles.SameCode(r.Second, p.Second) && r.Either == ""
		if mine {
			own, ok = r, true
		}
		return mine
	})
	return own, plan.Judge(s, w.Glazes, p), ok
}

// Rule says of one ordered pair whether it is skipped, made with care or simply
// made, in the version of wall.yaml that the person saw. A rule is written only
// where the others do not say the same already.
func Rule(dir folder.Folder, seen string, r tiles.Rule) error {
	w, err := Load(dir)
	if err != nil {
		return err
	}
	pair := tiles.Pair{First: r.First, Second: r.Second}
	for _, code := range []string{r.First, r.Second} {
		if _, known := tiles.FindGlaze(w.Glazes, code); !known || tiles.SameCode(r.First, r.Second) {
			return tiles.Problem{File: content.SettingsFile, What: fmt.Sprintf("a rule is for two glazes of the list, not for %q and %q", r.First, r.Second), Do: "choose a pair of the wall"}
		}
	}
	if _, others, _ := OwnRule(w, pair); others.Do == r.Do && r.Reason == "" {
		r.Do = ""
	}
	return Change(dir, Edit{File: content.SettingsFile, Seen: seen, Text: func(was []byte) ([]byte, error) { return content.WithRule(was, r) }})
}

// Part asks for a part of the wall, in the version of wall.yaml that the person
// saw.
func Part(dir folder.Folder, seen string, part tiles.Portion) error {
	return Change(dir, Edit{File: content.SettingsFile, Seen: seen, Text: func(was []byte) ([]byte, error) { return content.WithPart(was, part) }})
}
