package drift

import (
	"fmt"
	"math"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Say says a bucket's state in one line: "Kiln Moss, batch 3: no longer matches".
func (b Bucket) Say() string {
	say := b.Name
	if b.Batch != "" {
		say += ", batch " + b.Batch
	}
	say += ": " + string(b.State)
	switch b.State {
	case Untried:
		say += ", mixed " + b.Mixed
	case Unclear:
		say += "; lay both tiles on one mat"
	}
	return say
}

// say says what stands behind the state, one sentence an item.
func (b *Bucket) say() []string {
	var say []string
	for _, r := range b.Retests {
		say = append(say, r.Say())
	}
	for _, s := range b.Series() {
		if rule, ok := s.signal(); ok {
			say = append(say, s.say(string(rule), rule.Act()))
		}
	}
	if b.SG != nil && b.SG.Target > 0 {
		if last := b.SG.Chart.Points[len(b.SG.Chart.Points)-1]; math.Abs(last.Value-b.SG.Target) > sgQuiet+1e-9 {
			say = append(say, fmt.Sprintf("Specific gravity %.2f (%s), target %.2f: put the bucket right before you judge its color.", last.Value, last.Label, b.SG.Target))
		}
	}
	return say
}

func (s Series) say(rule string, act bool) string {
	last := s.Chart.Points[len(s.Chart.Points)-1]
	say := fmt.Sprintf("%s: %s at %s", s.Title, rule, last.Label)
	switch {
	case !act:
		say += "; look, it may be chance"
	case s.Chart.Tolerance > 0:
		say += fmt.Sprintf(" (limits: the glaze’s own target ± %g)", s.Chart.Tolerance)
	case s.Chart.Provisional:
		say += fmt.Sprintf(" (limits provisional, on %d points)", len(s.Chart.Points))
	}
	return say + "."
}

// Say says a re-test in one sentence: "Tile 151 (load 9) against tile 7:
// a different color, ΔE00 4.6 ± 1.2, darker by 4.0, redder by 1.9; …".
func (r Retest) Say() string {
	var b strings.Builder
	fmt.Fprintf(&b, "Tile %d", r.Tile)
	if r.Load > 0 {
		fmt.Fprintf(&b, " (load %d)", r.Load)
	}
	fmt.Fprintf(&b, " against tile %d", r.Own)
	if r.Beside {
		b.WriteString(", in one photo")
	}
	fmt.Fprintf(&b, ": %s, ΔE00 %.1f", r.band(), r.DE00)
	if r.Doubt > 0 {
		fmt.Fprintf(&b, " ± %.1f", r.Doubt)
	} else {
		b.WriteString(", doubt not known")
	}
	b.WriteString(r.directions())
	switch {
	case r.Vague():
		b.WriteString("; photograph both side by side on the mat for two tiles: in one photo they can be told apart")
	case r.DE00 >= noticeable && !r.Beyond():
		b.WriteString("; two tiles of one bucket may differ as much")
	}
	return b.String() + r.sayFiring() + "."
}

// band is the difference in words, or that the photos cannot tell.
func (r Retest) band() string {
	if r.Vague() {
		return "cannot tell"
	}
	return Band(r.DE00)
}

func (r Retest) sayFiring() string {
	switch {
	case r.Vague():
		return ""
	case r.Parted && r.Shift >= 0.05:
		return fmt.Sprintf("; what the controls moved between the two loads (ΔE00 %.1f) is taken off", r.Shift)
	case r.Parted:
		return "; the controls of the two loads agree"
	}
	return "; the two loads have no controls that agree, so the firing may be behind it"
}

// directions says which way the color went, where it went by a unit or more.
func (r Retest) directions() string {
	say := ""
	for _, axis := range []struct {
		value    float64
		up, down string
	}{{r.L, "lighter", "darker"}, {r.A, "redder", "greener"}, {r.B, "yellower", "bluer"}} {
		word := axis.up
		if axis.value < 0 {
			word = axis.down
		}
		if math.Abs(axis.value) >= 1 {
			say += fmt.Sprintf(", %s by %.1f", word, math.Abs(axis.value))
		}
	}
	return say
}

// Say says a load's shift in one sentence.
func (s Shift) Say() string {
	r := Retest{L: s.L, A: s.A, B: s.B}
	say := r.directions()
	if say == "" {
		say = ", within a unit of the other loads"
	} else {
		say = say + " than the other loads"
	}
	return fmt.Sprintf("Load %d, by %s: %s.", s.Load, english.Count(s.Controls, "control", "controls"), strings.TrimPrefix(say, ", "))
}

// SayShifts says which loads lie apart from the others, and how many do not.
func (d Report) SayShifts() []string {
	var say []string
	still := 0
	for _, s := range d.Shifts {
		if (Retest{L: s.L, A: s.A, B: s.B}).directions() == "" {
			still++
			continue
		}
		say = append(say, s.Say())
	}
	switch {
	case still == 0:
	case len(say) == 0:
		say = append(say, fmt.Sprintf("All %d loads with controls lie within a unit of each other.", still))
	default:
		say = append(say, fmt.Sprintf("%s within a unit of the mean.", english.Count(still, "other load lies", "other loads lie")))
	}
	return say
}

// Mismatched says of each of the wall's own tiles that no longer shows what
// its buckets make, why: for the wall, the tile's page and the labels.
func (d Report) Mismatched(w tiles.Wall) map[tiles.Number]string {
	out := map[tiles.Number]string{}
	for _, r := range d.Retests { // in order of firing: the newest word counts
		delete(out, r.Own)
		if r.Off() {
			out[r.Own] = fmt.Sprintf("no longer matches (re-test %d lies ΔE00 %.1f ± %.1f away)", r.Tile, r.DE00, r.Doubt)
		}
	}
	for _, b := range d.Buckets {
		if b.State != Changed {
			continue
		}
		for _, t := range w.Tiles {
			if t.Own() && t.Has(b.Glaze) && out[t.Number] == "" && !retested(t.Number, b.Retests) {
				out[t.Number] = fmt.Sprintf("may no longer match (%s has changed)", bucketName(b))
			}
		}
	}
	return out
}

func retested(n tiles.Number, retests []Retest) bool {
	for _, r := range retests {
		if r.Own == n {
			return true
		}
	}
	return false
}

func bucketName(b Bucket) string {
	if b.Batch == "" {
		return "the bucket of " + b.Name
	}
	return "batch " + b.Batch + " of " + b.Name
}

// Due is the batches whose bucket no longer matches the wall, for the plan to
// number every tile of theirs again.
func (d Report) Due() []tiles.Batch {
	var due []tiles.Batch
	for _, b := range d.Buckets {
		if b.State == Changed {
			due = append(due, tiles.Batch{Glaze: b.Glaze, Name: b.Batch, MixedOn: b.Mixed})
		}
	}
	return due
}

// Count counts the buckets by how they stand.
func (d Report) Count() map[State]int {
	count := map[State]int{}
	for _, b := range d.Buckets {
		count[b.State]++
	}
	return count
}

// Summary is how the buckets stand in a line.
func (d Report) Summary() string {
	count := d.Count()
	return fmt.Sprintf("%s, %d no longer matching, %d to look at, %d that the photos cannot tell, %d not re-tested, %d matching, %d with nothing to compare",
		english.Count(len(d.Buckets), "bucket", "buckets"), count[Changed], count[Look], count[Unclear], count[Untried], count[Matches], count[Unknown])
}
