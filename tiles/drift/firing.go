package drift

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"sort"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/logbook"
)

// shot is a tile in its load with its readings.
type shot struct {
	tile     tiles.Tile
	lab      color.Lab // of the reading that stands for it
	doubt    float64   // ± ΔE00; 0 = not known
	day      string
	readings []tiles.Reading // all of the same zone
}

// shots is every fired tile with a reading, in order of firing.
type shots []shot

func newShots(w tiles.Wall, loads []tiles.Load) shots {
	days := map[int]string{}
	for _, l := range loads {
		if n := l.PlanLoad(); n > 0 {
			days[n] = l.Date
		}
	}
	var list shots
	by := tiles.ByTile(w.Readings)
	for _, t := range w.Tiles {
		r, ok := tiles.ColorOf(by[t.Number], t.Number)
		if !ok {
			continue
		}
		s := shot{tile: t, lab: labOf(r), doubt: r.Doubt, day: days[t.Load]}
		for _, one := range by[t.Number] {
			if one.Zone == r.Zone {
				s.readings = append(s.readings, one)
			}
		}
		list = append(list, s)
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].before(list[j]) })
	return list
}

// before orders by day where both are known, else by load, else by number.
func (s shot) before(other shot) bool {
	switch {
	case s.day != "" && other.day != "" && s.day != other.day:
		return s.day < other.day
	case s.tile.Load != other.tile.Load:
		return s.tile.Load < other.tile.Load
	}
	return s.tile.Number < other.tile.Number
}

func (list shots) of(n tiles.Number) (shot, bool) {
	if n == 0 {
		return shot{}, false
	}
	for _, s := range list {
		if s.tile.Number == n {
			return s, true
		}
	}
	return shot{}, false
}

// Shift is how far a load as a whole lies from the others, by its controls:
// the mean over the controls of reading minus the control's mean of all loads,
// in CIELAB units.
type Shift struct {
	Load     int     `json:"load"`
	L        float64 `json:"l"`
	A        float64 `json:"a"`
	B        float64 `json:"b"`
	Controls int     `json:"controls"` // readings behind it
	Doubt    float64 `json:"doubt"`    // ± ΔE00 of the mean; 0 = not known
}

// firings is the shift of every load that has controls.
type firings map[int]Shift

// shifts works out every load's shift. Each control's own level is the mean of
// its loads' means, so that a load with three shelves weighs no more than one.
func (list shots) shifts(w tiles.Wall) firings {
	repeated := map[tiles.Number]bool{}
	for _, s := range list {
		if w.Kiln.IsControl(s.tile) {
			repeated[s.tile.Repeats] = true
		}
	}
	out := firings{}
	for _, n := range slices.Sorted(maps.Keys(repeated)) { // in order: the last digits of a sum depend on it
		out.add(list.controlReadings(w, n))
	}
	for load, s := range out {
		k := float64(s.Controls)
		s.L, s.A, s.B, s.Doubt = s.L/k, s.A/k, s.B/k, math.Sqrt(s.Doubt)/k
		out[load] = s
	}
	return out
}

// controlReadings is the readings of one control by load, the wall's own tile
// among them.
func (list shots) controlReadings(w tiles.Wall, own tiles.Number) map[int][]shot {
	by := map[int][]shot{}
	for _, s := range list {
		if s.tile.Load > 0 && (s.tile.Number == own || s.tile.Repeats == own && w.Kiln.IsControl(s.tile)) {
			by[s.tile.Load] = append(by[s.tile.Load], s)
		}
	}
	return by
}

func (f firings) add(by map[int][]shot) {
	if len(by) < 2 {
		return // one load alone has nothing to differ from
	}
	var level color.Lab
	for _, load := range slices.Sorted(maps.Keys(by)) {
		m := mean(by[load])
		level.L += m.L / float64(len(by))
		level.A += m.A / float64(len(by))
		level.B += m.B / float64(len(by))
	}
	for _, load := range slices.Sorted(maps.Keys(by)) {
		s := f[load]
		s.Load = load
		for _, one := range by[load] {
			s.L += one.lab.L - level.L
			s.A += one.lab.A - level.A
			s.B += one.lab.B - level.B
			s.Doubt += one.doubt * one.doubt
			s.Controls++
		}
		f[load] = s
	}
}

func mean(list []shot) color.Lab {
	var m color.Lab
	for _, s := range list {
		m.L += s.lab.L / float64(len(list))
		m.A += s.lab.A / float64(len(list))
		m.B += s.lab.B / float64(len(list))
	}
	return m
}

// notes says what weakens the comparison: no controls, or a control whose own
// bucket was remixed on the way.
func (list shots) notes(w tiles.Wall, mixes logbook.Mixes) []string {
	var notes []string
	batch := map[tiles.Number]string{}
	controls := 0
	for _, s := range list {
		if !w.Kiln.IsControl(s.tile) {
			continue
		}
		controls++
		in, ok := mixes.On(s.tile.First, s.day)
		if before, seen := batch[s.tile.Repeats]; ok && seen && before != in.Name {
			notes = append(notes, fmt.Sprintf("The control %s was remixed (batch %s) before load %d: what looks like that load's shift may be the control's own.",
				w.Glaze(s.tile.First).Name, in.Name, s.tile.Load))
		}
		if ok {
			batch[s.tile.Repeats] = in.Name
		}
	}
	if controls == 0 {
		notes = append(notes, "No control tile has a reading, so firing and batch cannot be told apart. Name one or two steady glazes under kiln: controls: in wall.yaml.")
	}
	return notes
}
