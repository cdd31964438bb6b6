package content

import (
	"fmt"
	"strings"
	"unicode"
)

// ProposeCode is a code for a glaze of that name that is not taken: the first
// letters of its words, as studios mark buckets (common practice, no source),
// or else letters of its name; "" for a name without any letter or digit.
func ProposeCode(name string, taken func(code string) bool) string {
	words := strings.FieldsFunc(strings.NewReplacer("'", "", "’", "").Replace(tidy(name)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if len(words) == 0 {
		return ""
	}
	initials, letters := "", []rune(strings.Join(words, ""))
	for _, w := range words {
		initials += string([]rune(w)[0])
	}
	tries := []string{firstRunes(initials, 3), firstRunes(words[0], 2)}
	if len(words) == 1 {
		tries = tries[1:]
	}
	for _, r := range letters[1:] {
		tries = append(tries, string([]rune{letters[0], r}))
	}
	// 0 and 1 are taken for letters on clay.
	for n := 2; n < 100; n++ {
		tries = append(tries, fmt.Sprintf("%c%d", letters[0], n))
	}
	for _, code := range tries {
		if code = strings.ToUpper(code); isCode(code) && !taken(code) {
			return code
		}
	}
	return ""
}

func firstRunes(s string, n int) string {
	r := []rune(s)
	return string(r[:min(n, len(r))])
}
