package tiles

import "strings"

// Glaze is one bucket's glaze as the teacher lists it. Code is 1–4 letters or
// digits, unique on the wall whatever the case; Name is what people say.
type Glaze struct {
	Code     string
	Name     string
	Was      string // the code it had before, where the list says so; its tiles' rows may still have it
	Finish   string // gloss, satin, matte, … in the teacher's own word
	Cone     string // a cone is text: "06" and "6" are 200 °C apart
	Color    string // the teacher's own words for the fired color
	Notes    string
	Cautions []string
	Traits   []Trait
	SG       float64 // target specific gravity in the bucket; 0 = not given
	Shade    string  // light, mid or dark: the order buckets are opened in
	Retired  bool    // no longer mixed: its tiles keep their numbers
	Bucket   BucketState
	Line     int // line of the glaze list it came from; 0 = made in code
}

// Trait is a property of a glaze that rules can speak about.
type Trait string

// The traits the rules know. Each is common practice in a shared studio, no
// source; a teacher may override any rule built on them.
const (
	Runny       Trait = "runny"        // moves on a vertical face
	Crawls      Trait = "crawls"       // shrinks or beads, worse over a coat
	Slick       Trait = "slick"        // dries slick, gummed or waxy: what goes over it slides off
	Soluble     Trait = "soluble"      // holds soluble salts: no bare hands, no re-dips
	Colorant    Trait = "colorant"     // strong colorant (cobalt, chrome, copper): dipped last
	NotFood     Trait = "not-food"     // never for surfaces that touch food
	NeverFirst  Trait = "never-first"  // the studio never puts it under another
	NeverSecond Trait = "never-second" // the studio never puts it over another
)

// Traits lists every trait a glaze list may name, in the order shown to people.
var Traits = []Trait{Runny, Crawls, Slick, Soluble, Colorant, NotFood, NeverFirst, NeverSecond}

// Has says whether the glaze has the trait.
func (g Glaze) Has(t Trait) bool {
	for _, have := range g.Traits {
		if have == t {
			return true
		}
	}
	return false
}

// SameCode says whether two codes name the same glaze: case never tells two
// glazes apart, because a code is written by hand on clay.
func SameCode(a, b string) bool { return strings.EqualFold(a, b) }

// FindGlaze returns the glaze with the code, whatever its case.
func FindGlaze(glazes []Glaze, code string) (Glaze, bool) {
	for _, g := range glazes {
		if SameCode(g.Code, code) {
			return g, true
		}
	}
	return Glaze{}, false
}

// Renamed is the pair with the codes that its glazes have now, where the list
// says what they had before. A code that is in the list is never taken for an
// old one.
func Renamed(glazes []Glaze, p Pair) Pair {
	now := func(code string) string {
		if code == "" {
			return code
		}
		if _, inUse := FindGlaze(glazes, code); inUse {
			return code
		}
		for _, g := range glazes {
			if g.Was != "" && SameCode(g.Was, code) {
				return g.Code
			}
		}
		return code
	}
	return Pair{First: now(p.First), Second: now(p.Second)}
}
