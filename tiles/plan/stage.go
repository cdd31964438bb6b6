package plan

import (
	"fmt"
	"math"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// Stage is one part of the work from clay to wall: what a person does, how
// long that takes, and how many days pass until the next one can begin.
type Stage struct {
	What    string
	Says    string  // how much of it, and what to mind
	Who     string  // "student", "two students", "teacher or technician"
	Minutes float64 // of a person's work
	Days    int     // on the calendar, waiting included; 1 and up
	Load    int     // the load it is of; 0 = of all
}

// What one tile takes, in minutes, and what waits, in days (common practice, no
// source: a studio that has made ten knows better).
const (
	makeTile   = 5   // roll, cut, join the foot, pierce, comb
	numberTile = 0.5 // scratch, wash, wipe
	waxTile    = 0.4
	loadTile   = 0.5
	loadKiln   = 20 // to check, set the cones and write the record
	unloadTile = 0.3
	photoTile  = 1
	hangTile   = 2 // label, tag, hook
	workDay    = 180.0
	dryingDays = 7 // slow, under plastic at first
	firingDays = 2 // the firing and the cooling
	coatDays   = 1 // glazed tiles dry a day before they are loaded
	bisqueMore = 2 // raw tiles stand close and in two layers: so many times a glaze load
)

// BisqueLoads is how many bisque loads a plan's tiles ask for.
func BisqueLoads(w tiles.Wall) int {
	most, todo := 0, len(toMake(w.Tiles))
	for _, l := range Loads(w) {
		most = max(most, len(l.Tiles()))
	}
	if most == 0 || todo == 0 {
		return 0
	}
	spares := int(math.Ceil(float64(todo) * w.Dip.Spares / 100))
	return (todo + spares + bisqueMore*most - 1) / (bisqueMore * most)
}

// Stages is the whole of what is planned and not fired, in order, from making
// the tiles to hanging them.
func Stages(w tiles.Wall) []Stage {
	m := Need(w)
	if m.Tiles == 0 {
		return nil
	}
	n := float64(m.Tiles + m.Spares)
	stages := []Stage{
		{What: "Make the tiles", Who: "students", Minutes: n * makeTile,
			Says: fmt.Sprintf("%s and %s from %s of clay; the sheet “materials” has the pieces to cut", english.Count(m.Tiles, "tile", "tiles"), english.Count(m.Spares, "spare", "spares"), w.Units.Weight(m.Clay))},
		{What: "Number the raw tiles", Who: "two students", Minutes: n * numberTile,
			Says: "leather-hard, in the order of the sheet “numbers”, ticked; gloves with oxides"},
		{What: "Dry", Who: "nobody", Days: dryingDays, Says: "slowly, under plastic for the first days; bone dry before the kiln"},
	}
	bisque := BisqueLoads(w)
	for i := range bisque {
		stages = append(stages, Stage{What: fmt.Sprintf("Bisque firing %d of %d", i+1, bisque), Who: "teacher or technician",
			Minutes: loadKiln + n/float64(bisque)*(loadTile+unloadTile), Days: firingDays,
			Says: "to cone " + BisqueCone(w.Settings) + "; the sheet “bisque” says what to stack; open below 100 °C (212 °F)"})
	}
	if w.Settings.Tile.Bare > 0 {
		stages = append(stages, Stage{What: "Wax the feet", Who: "two students", Minutes: n * waxTile,
			Says: fmt.Sprintf("the lowest %s of every tile, clear of the number where it is still to be written", w.Units.Length(w.Settings.Tile.Bare))})
	}
	for _, s := range Sessions(w) {
		stages = append(stages, sessionStages(w, s)...)
	}
	for i := range stages {
		stages[i].Days = max(stages[i].Days, int(math.Ceil(stages[i].Minutes/workDay)), 1)
	}
	return stages
}

// sessionStages is the dipping of loads in one go, and each one's firing.
func sessionStages(w tiles.Wall, s Session) []Stage {
	d := DipRuns(w, s...)
	name := fmt.Sprintf("load %d", s.First())
	if s.Last() != s.First() {
		name = fmt.Sprintf("loads %d to %d", s.First(), s.Last())
	}
	stages := []Stage{{What: "Dip " + name, Who: "two students: one dips, one stirs, reads out and ticks", Minutes: d.Total.Minutes, Load: s.First(),
		Days: int(math.Ceil(d.Total.Minutes/workDay)) + coatDays,
		Says: fmt.Sprintf("%d dips, %d bucket openings; gloves; then a day to dry", d.Total.Dips, d.Total.Openings)}}
	for _, l := range s {
		n := float64(len(l.Tiles()))
		stages = append(stages,
			Stage{What: fmt.Sprintf("Load and fire load %d", l.Number), Who: "teacher or technician", Load: l.Number, Days: firingDays, Minutes: loadKiln + n*loadTile,
				Says: fmt.Sprintf("%.0f tiles by the shelf maps, to cone %s; cones on every shelf; open below 100 °C (212 °F)", n, w.Cone)},
			Stage{What: fmt.Sprintf("Unload, photograph and hang load %d", l.Number), Who: "two students", Load: l.Number, Minutes: n * (unloadTile + photoTile + hangTile),
				Says: "labels on the fired tiles; each photographed on the mat; then twodip measure and twodip build"})
	}
	return stages
}

// BisqueCone is the cone the tiles are bisque-fired to; 04 where the settings
// say none (06 to 04: common practice).
func BisqueCone(s tiles.Settings) string {
	if s.Clay.Bisque != "" {
		return s.Clay.Bisque
	}
	return "04"
}

// Whole is what all stages take: hours of people's work, and days.
func Whole(stages []Stage) (hours float64, days int) {
	for _, s := range stages {
		hours += s.Minutes / 60
		days += s.Days
	}
	return hours, days
}
