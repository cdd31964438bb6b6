package trace

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Caveat stands under everything traced.
const Caveat = "This shows what faulty pieces have in common, not why they came out so. A test piece settles it."

// Heading is the fault and how many pieces have it.
func (f Fault) Heading() string {
	return fmt.Sprintf("%s: %d of %s", english.Capital(f.Name), f.Pieces, english.Count(f.Of, "piece", "pieces"))
}

// SayZones says where on the piece the fault sat; "" where nobody wrote it.
func (f Fault) SayZones() string {
	var zones []tiles.Zone
	for z := range f.Zones {
		if z != "" {
			zones = append(zones, z)
		}
	}
	if len(zones) == 0 {
		return ""
	}
	sort.Slice(zones, func(i, j int) bool {
		a, b := f.Zones[zones[i]], f.Zones[zones[j]]
		return a > b || a == b && zones[i] < zones[j]
	})
	var parts []string
	for _, z := range zones {
		parts = append(parts, fmt.Sprintf("%s %d", z, f.Zones[z]))
	}
	if n := f.Zones[""]; n > 0 {
		parts = append(parts, fmt.Sprintf("not written %d", n))
	}
	return "Where it sat: " + strings.Join(parts, ", ") + "."
}

// SayNothing says why no suspect is named; "" where one is.
func (f Fault) SayNothing() string {
	switch {
	case len(f.Found) > 0:
		return ""
	case f.TooFew:
		return fmt.Sprintf("Too few to tell: a fault is traced from %d pieces on.", fewest)
	case len(f.Gone) > 0:
		return "Nothing is left once each load, and each maker’s own pieces, are looked at by themselves."
	case f.Shared || f.Pieces < telling:
		return "Too few to tell: what so few pieces share may well be chance."
	}
	return "Nothing stands out: its pieces have no more in common than chance would give."
}

// telling is from how many faulty pieces on it says something that they have
// nothing in common (common practice, no source).
const telling = 6

// say says a finding in words, one sentence an item, the counts first.
func (r *Report) say(f Fault, one Finding) []string {
	p := r.phrase(one.Suspect)
	t := one.Table
	say := []string{fmt.Sprintf("%d of %d pieces %s %s; %d of %d %s.",
		t.WithFaults, t.With, p.with, f.Word.Did, t.WithoutFaults, t.Without, p.without)}
	say = append(say, sayInside(one)...)
	say = append(say, r.sayOthers(f, one)...)
	return append(say, r.sayRivals(one)...)
}

func sayInside(one Finding) []string {
	switch {
	case one.Makers.Holds != Holds && one.Makers.Groups > 0:
		return []string{"Not so among pieces of the same hands: it may lie in how they were made rather than in this."}
	case one.Makers.Holds != Holds:
		return []string{"Nobody made pieces both with and without, so this log cannot tell it from how they were made."}
	case one.Inside == nil:
		return nil
	case one.Inside.Holds == Holds:
		return []string{"Also true inside single loads."}
	case one.Inside.Holds == Gone:
		return []string{"Not so inside single loads: look at the firing first."}
	case len(one.Alone) > 0:
		return []string{sayAlone(one.Alone)}
	case one.Inside.Groups == 0:
		return []string{"No load has pieces of both kinds side by side, so the firing may be behind it as well."}
	}
	return []string{"Inside single loads there are too few pieces side by side to tell it from the firing."}
}

// sayAlone says that a suspect and the firings it was in are one to this log.
func sayAlone(loads []string) string {
	if len(loads) == 1 {
		return fmt.Sprintf("It cannot be told from load %s, which held nothing else; fire one like it with another glaze.", loads[0])
	}
	return fmt.Sprintf("It cannot be told from loads %s, which held nothing else; fire one of them with another glaze.",
		english.And(english.First(fullNames, loads)))
}

// sayOthers holds a batch against the other batches of its glaze.
func (r *Report) sayOthers(f Fault, one Finding) []string {
	if one.Others == nil {
		return nil
	}
	glaze := r.glaze(one.Suspect.Glaze)
	if one.Others.Without == 0 {
		return []string{fmt.Sprintf("The log has no other batch of %s to compare with.", glaze)}
	}
	say := fmt.Sprintf("Of the other batches of %s, %d of %d %s", glaze, one.Others.WithoutFaults, one.Others.Without, f.Word.Did)
	if one.OthersP > Level {
		return []string{say + ", which is too close to tell this batch from the glaze itself."}
	}
	return []string{say + "."}
}

// sayRivals names what cannot be told apart, with the test pieces that would,
// and what stands out only because of the finding.
func (r *Report) sayRivals(one Finding) []string {
	var say []string
	same := slices.DeleteFunc(least(one.Same), func(s Suspect) bool { return s.Kind == KindLoad && slices.Contains(one.Alone, s.Name) })
	if len(same) > 0 {
		say = append(say, fmt.Sprintf("This log cannot tell it apart from %s: they are on the same pieces.", r.names(same)))
	}
	if len(one.Tests) > 0 {
		say = append(say, "To tell them apart: "+strings.Join(one.Tests, "; ")+".")
	}
	if len(one.Follow) > 0 {
		say = append(say, fmt.Sprintf("%s %s out too, but only through these same pieces.",
			english.Capital(r.names(one.Follow)), english.Number(len(one.Follow), "stands", "stand")))
	}
	return say
}

// fullNames is how many suspects are named before the rest is counted.
const fullNames = 4

func (r *Report) names(list []Suspect) string {
	names := make([]string, len(list))
	for i, s := range list {
		names[i] = r.Name(s)
	}
	return english.AndOf(english.First(fullNames, names))
}

// Summary is what was found in a line.
func (r Report) Summary() string {
	named := 0
	for _, f := range r.Faults {
		named += len(f.Found)
	}
	return fmt.Sprintf("%s with a result, %s, %s", english.Count(r.Pieces, "piece", "pieces"),
		english.Count(len(r.Faults), "fault", "faults"), english.Count(named, "suspect named", "suspects named"))
}
