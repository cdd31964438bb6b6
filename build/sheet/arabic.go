package sheet

import (
	"sync"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// joined holds the presentation forms of one Arabic letter, or of lam with
// alef: how it stands alone, after a letter it joins, before one, between two.
// A letter that joins only what comes before it has no last two.
type joined struct{ alone, after, before, between rune }

// joinedForms are the forms of every letter that Unicode gives them to. Within
// a block they follow each other in the order of the struct's fields, and each
// decomposes to its letter (The Unicode Standard, Arabic Presentation Forms-A
// and -B).
var joinedForms = sync.OnceValue(func() map[string]joined {
	forms := map[string]joined{}
	for _, block := range [][2]rune{{0xFB50, 0xFBE7}, {0xFBFC, 0xFBFF}, {0xFE80, 0xFEFC}} {
		for r := block[0]; r <= block[1]; {
			letter := norm.NFKC.String(string(r))
			var run []rune
			for ; r <= block[1] && norm.NFKC.String(string(r)) == letter; r++ {
				run = append(run, r)
			}
			var f joined
			for i, to := range []*rune{&f.alone, &f.after, &f.before, &f.between} {
				if i < len(run) {
					*to = run[i]
				}
			}
			forms[letter] = f
		}
	}
	return forms
})

// joinArabic puts every Arabic letter into the form its neighbors ask for: a
// PDF of ours places letters one by one and joins none. Letters whose form the
// font lacks stay as they are.
func joinArabic(s string, has func(rune) bool) string {
	if !hasArabic(s) {
		return s
	}
	letters := lettersOf(s)
	out := make([]rune, 0, len(s))
	for i, l := range letters {
		f, ok := joinedForms()[l]
		r := f.alone
		after := joinsNext(letters, i-1)
		before := f.before != 0 && joinsBack(letters, i+1)
		switch {
		case after && before:
			r = f.between
		case after && f.after != 0:
			r = f.after
		case before:
			r = f.before
		}
		if !ok || r == 0 || !has(r) {
			out = append(out, []rune(l)...)
			continue
		}
		out = append(out, r)
	}
	return string(out)
}

func hasArabic(s string) bool {
	for _, r := range s {
		if r >= 0x600 && unicode.Is(unicode.Arabic, r) {
			return true
		}
	}
	return false
}

// lettersOf splits s into letters, a lam and the alef after it being one.
func lettersOf(s string) []string {
	var letters []string
	runes := []rune(s)
	for i := 0; i < len(runes); i++ {
		if i+1 < len(runes) {
			if _, ok := joinedForms()[string(runes[i:i+2])]; ok {
				letters = append(letters, string(runes[i:i+2]))
				i++
				continue
			}
		}
		letters = append(letters, string(runes[i]))
	}
	return letters
}

// joinsNext says whether the letter at i, or before the marks there, joins the
// one that follows it.
func joinsNext(letters []string, i int) bool {
	for ; i >= 0 && isMark(letters[i]); i-- {
	}
	return i >= 0 && joinedForms()[letters[i]].before != 0
}

// joinsBack says whether the letter at i, or after the marks there, joins the
// one before it.
func joinsBack(letters []string, i int) bool {
	for ; i < len(letters) && isMark(letters[i]); i++ {
	}
	return i < len(letters) && joinedForms()[letters[i]].after != 0
}

func isMark(s string) bool {
	for _, r := range s {
		if !unicode.IsMark(r) {
			return false
		}
	}
	return true
}
