package sheet

import (
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// cardLine is one thing to mind; heavy where a hand or a meal is at risk.
type cardLine struct {
	words string
	heavy bool
}

// cardWords says what to mind at this bucket: what can hurt, how to dip, its
// traits, and the pairs that are never made with it.
func cardWords(w tiles.Wall, g tiles.Glaze) []cardLine {
	var said []cardLine
	for _, s := range cardCautions(g) {
		said = append(said, cardLine{s, true})
	}
	for _, s := range append(append(cardDipping(w.Dip), coatChecks(w.Units, w.Dip, g)...), append(cardTraits(w.Units, g), cardPairs(w, g)...)...) {
		said = append(said, cardLine{s, false})
	}
	return append(said, cardLine{"Two coats: not tested for food.", false})
}

// cardCautions is what can hurt, the teacher's own words last.
func cardCautions(g tiles.Glaze) []string {
	var said []string
	if g.Has(tiles.Soluble) {
		said = append(said, "Gloves: it holds soluble salts. Never over a cut. Never dip twice to mend a coat.")
	}
	if g.Has(tiles.NotFood) {
		said = append(said, "Never where food or drink touches.")
	}
	for _, c := range g.Cautions {
		if c = strings.TrimRight(clean(c), "."); c != "" {
			said = append(said, english.Sentence(c))
		}
	}
	return said
}

// cardDipping is how the studio dips.
func cardDipping(d tiles.Dip) []string {
	how := "Stir to the bottom"
	if d.Stir > 0 {
		how += fmt.Sprintf(", again every %s minutes", inMM(d.Stir))
	}
	if d.Seconds > 0 {
		how += fmt.Sprintf(". Dip %s seconds", inMM(d.Seconds))
	}
	return []string{
		how + ". Lid on before the next bucket is opened.",
		"As 2nd: " + secondAtBucket(d),
	}
}

// coatChecks is how thick a coat will be, by three checks, and what to do at each
// end (common practice, most of it found written).
func coatChecks(u tiles.Units, d tiles.Dip, g tiles.Glaze) []string {
	sg := "the SG"
	if g.SG > 0 {
		sg = fmt.Sprintf("SG %.2f", g.SG)
	}
	said := fmt.Sprintf("Check %s; the seconds through the flow cup, as on the last good day", sg)
	if d.Thickness > 0 {
		said += fmt.Sprintf("; the raw coat, %s by a needle pushed to the clay", u.Coat(d.Thickness))
	}
	return []string{
		said + ".",
		"Too thick: a little water, stir, wait, check. Too thin: let it stand, take clear water off, or dip a second longer.",
		"SG right, but it runs off: a pinch of flocculant. SG right, but it clots: a drop of deflocculant.",
	}
}

// secondAtBucket is how this glaze goes on as a second coat.
func secondAtBucket(d tiles.Dip) string {
	way := map[tiles.SecondFrom]string{
		tiles.SecondJar:    "from its own jar, never in this bucket; what is left goes back into the jar",
		tiles.SecondTrough: "from a trough, never in this bucket; throw the rest away",
		tiles.SecondBrush:  "with a brush, from a dish; throw the rest away",
		tiles.SecondBucket: "in this bucket; sieve it after the run",
	}[d.SecondFrom]
	if way == "" {
		way = "from a cup, never in this bucket; throw the rest of the cup away"
	}
	if d.SecondFrom != tiles.SecondBrush && d.Seconds > 0 {
		way += "; " + seconds(secondSeconds(d))
	}
	return way + "."
}

// bareUnderRuns is how much of the foot stays bare below what runs, mm (common
// practice, no source).
const bareUnderRuns = 25

// traitWords is what each trait means at the bucket (common practice, no
// source).
var traitWords = []struct {
	trait tiles.Trait
	words string
}{
	{tiles.Runny, "Runs: %s bare at the foot, waste slab under it."},
	{tiles.Crawls, "Crawls: as 2nd thin, over a coat that is touch-dry."},
	{tiles.Slick, "Dries slick: what goes over it may slide off."},
	{tiles.Colorant, "Strong colorant: dip it last, rinse hands and tongs."},
	{tiles.NeverFirst, "Never as 1st under another glaze here."},
	{tiles.NeverSecond, "Never as 2nd over another glaze here."},
}

func cardTraits(u tiles.Units, g tiles.Glaze) []string {
	var said []string
	for _, t := range traitWords {
		if g.Has(t.trait) {
			said = append(said, strings.ReplaceAll(t.words, "%s", u.Length(bareUnderRuns)))
		}
	}
	return said
}

// cardPairs is the pairs the rules skip.
func cardPairs(w tiles.Wall, g tiles.Glaze) []string {
	var said []string
	over, under := neverWith(w, g)
	if over != "" {
		said = append(said, "Never 1st "+clean(g.Code)+" → 2nd "+over+".")
	}
	if under != "" {
		said = append(said, "Never 1st "+under+" → 2nd "+clean(g.Code)+".")
	}
	return said
}

// neverWith lists the codes the rules skip as second over the glaze, and as
// first under it.
func neverWith(w tiles.Wall, g tiles.Glaze) (over, under string) {
	if g.Has(tiles.NeverFirst) || g.Has(tiles.NeverSecond) {
		return "", "" // said in one line already
	}
	var a, b []string
	for _, other := range inUse(w) {
		if tiles.SameCode(other.Code, g.Code) || other.Has(tiles.NeverFirst) || other.Has(tiles.NeverSecond) {
			continue
		}
		pair := tiles.Pair{First: g.Code, Second: other.Code}
		if plan.Judge(w.Settings, w.Glazes, pair).Do == plan.Skip {
			a = append(a, clean(other.Code))
		}
		if plan.Judge(w.Settings, w.Glazes, pair.Reverse()).Do == plan.Skip {
			b = append(b, clean(other.Code))
		}
	}
	return strings.Join(a, ", "), strings.Join(b, ", ")
}
