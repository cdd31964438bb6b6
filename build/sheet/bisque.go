package sheet

import (
	"fmt"
	"io"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/plan"
)

// Bisque writes the bisque firings of everything that is planned: how raw tiles
// are stacked, to which cone, and which numbers go into which load.
func Bisque(w io.Writer, job Job) (pages int, err error) {
	var due []tiles.Tile
	for _, t := range job.due() {
		if t.Status == tiles.Planned {
			due = append(due, t)
		}
	}
	loads := plan.BisqueLoads(job.Wall)
	if len(due) == 0 || loads == 0 {
		return 0, ErrNothing
	}
	s, err := newPinned(job, "Bisque firings", "Fire the numbered raw tiles once before they are glazed. Tick each as it goes in.", false)
	if err != nil {
		return 0, err
	}
	s.written = true
	items := []item{{flowPart: flowPart{s.bisqueTall(), s.bisqueHow}, head: true}}
	for i := range loads {
		items = append(items, s.bisqueLoad(i, loads, due[i*len(due)/loads:(i+1)*len(due)/loads])...)
	}
	s.addPages(spread(items, s.body().h))
	return s.bind(w)
}

// bisqueLoad is the head of one load and its numbers.
func (s *pinned) bisqueLoad(i, of int, due []tiles.Tile) []item {
	name := fmt.Sprintf("Bisque load %d of %d", i+1, of)
	headOf := func(more string) flowPart {
		return flowPart{10, func(a area) { s.text(a.x, a.y+6.5, head, name+more) }}
	}
	items := []item{{flowPart: headOf(": " + english.Count(len(due), "tile", "tiles") + ", and their share of the spares"), head: true, again: headOf(", continued")}}
	for from := 0; from < len(due); from += rawColumns {
		row := due[from:min(from+rawColumns, len(due))]
		items = append(items, item{flowPart: flowPart{rawRow, func(a area) { s.rawRow(a, row) }}})
	}
	return items
}

// bisqueSteps is how raw tiles are stacked and fired (common practice, most of
// it found written). The kiln's manual and local codes come first.
func bisqueSteps(s tiles.Settings) []string {
	return []string{
		"To cone " + plan.BisqueCone(s) + ", the same for all: another bisque takes up another thickness of glaze. The kiln’s manual and local codes come before this list.",
		"Bone dry only: a tile that feels cool on the cheek is still damp and may burst.",
		"Raw tiles may touch. Stand them foot to back in rows, or lay flat ones two high; nothing leans. Two layers at most.",
		"Cones on every shelf; the thermocouple stays clear; slow up to 120 °C (250 °F) and through 573 °C (1063 °F); vent to the outdoors.",
		"Open below 100 °C (212 °F). Look at every number: write a faint one again before the foot is waxed.",
	}
}

func (s *pinned) bisqueTall() float64 {
	tall := 3.0
	for _, l := range bisqueSteps(s.job.Wall.Settings) {
		tall += s.paraTall(s.body().w-3.2, small, l) + 0.35*small.mm()
	}
	return tall
}

func (s *pinned) bisqueHow(a area) {
	y := a.y + 1
	for _, l := range bisqueSteps(s.job.Wall.Settings) {
		y = s.bullet(a.x, y, a.w, small, l)
	}
}
