package logbook

import (
	"maps"
	"slices"

	"github.com/twodip/twodip/tiles"
)

// Ways of writing in the log (common practice, no source).
var (
	goodWords    = wordSet("good", "ok", "okay", "fine", "none", "no", "no fault", "no faults", "-", "–", "clean", "perfect")
	faultyWords  = wordSet("fault", "faults", "faulty", "bad", "reject", "rejected", "fail", "failed", "second", "seconds")
	waitingWords = wordSet("waiting", "not fired", "not yet", "to fire", "to be fired", "in the kiln", "in kiln", "loaded", "glazed", "?", "pending")
	nothingWords = wordSet("none", "no", "-", "–", "—", "n/a", "na", "nil", "nothing", "no second", "x", "single", "one coat", "0")
	notKnown     = wordSet("?", "??", "???", "unknown", "not known", "n/a", "na", "not sure", "unsure", "don't know", "don’t know", "dunno", "no idea", "tbd", "tba")
	methods      = map[string]string{
		"dip": "dipped", "dipping": "dipped", "dipped": "dipped",
		"pour": "poured", "pouring": "poured", "poured": "poured",
		"brush": "brushed", "brushing": "brushed", "brushed": "brushed", "paint": "brushed", "painted": "brushed",
		"spray": "sprayed", "spraying": "sprayed", "sprayed": "sprayed",
	}
)

// faultNames and resultWords are what a typo may have meant.
var (
	faultNames  = slices.Sorted(maps.Keys(wordForms))
	resultWords = slices.Concat(slices.Sorted(maps.Keys(goodWords)), slices.Sorted(maps.Keys(faultyWords)), faultNames)
)

func wordSet(list ...string) map[string]bool {
	set := map[string]bool{}
	for _, w := range list {
		set[w] = true
	}
	return set
}

func isGood(written string) bool { return goodWords[tiles.Fold(written)] }

// isFault says that a cell below faults names one.
func isFault(written string) bool { return tiles.Fold(written) != "" && !isGood(written) }

// isFaulty says that a result names a fault: by the plain word or by the
// fault itself.
func isFaulty(result string) bool {
	key := tiles.Fold(result)
	_, named := wordForms[key]
	return faultyWords[key] || named
}

// method is how a coat was put on, in one form.
func method(written string) string {
	if m, ok := methods[tiles.Fold(written)]; ok {
		return m
	}
	return written
}

// Opened says whether the piece's result is known: it came out good, or with
// a fault. A piece that waits for its firing says nothing yet.
func Opened(p tiles.Piece) bool {
	return len(p.Faults) > 0 || isGood(p.Result) || isFaulty(p.Result)
}
