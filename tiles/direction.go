package tiles

import "unicode"

// leftToRight is U+200E, a mark without a shape. Beside a word that reads from
// the right it keeps what follows in its place: an arrow after an Arabic code
// would otherwise turn round with it (UAX #9, Unicode Bidirectional Algorithm).
const leftToRight = "\u200e"

// fromTheRight are the scripts in use today that are written from the right.
var fromTheRight = []*unicode.RangeTable{
	unicode.Arabic, unicode.Hebrew, unicode.Syriac, unicode.Thaana, unicode.Nko, unicode.Adlam,
	unicode.Mandaic, unicode.Samaritan, unicode.Hanifi_Rohingya,
}

// Apart sets a code or a name off from the sentence it stands in, where it
// holds letters that read from the right; any other word is as it was.
func Apart(word string) string {
	for _, r := range word {
		if r >= 0x590 && unicode.In(r, fromTheRight...) {
			return leftToRight + word + leftToRight
		}
	}
	return word
}
