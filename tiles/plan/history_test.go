package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/plan"
)

// studio is a wall as a teacher edits it over the years.
type studio struct {
	settings tiles.Settings
	glazes   []tiles.Glaze
	rows     []tiles.Tile
	given    map[tiles.Number]tiles.Pair // every number ever given
	made     int
}

func (s *studio) addGlaze(t *rapid.T) {
	if len(s.glazes) >= 9 {
		t.Skip("list is long enough")
	}
	s.made++
	g := tiles.Glaze{Code: fmt.Sprintf("G%d", s.made), Name: "new"}
	at := rapid.IntRange(0, len(s.glazes)).Draw(t, "at")
	s.glazes = slices.Insert(s.glazes, at, g)
}

func (s *studio) pick(t *rapid.T) int {
	if len(s.glazes) == 0 {
		t.Skip("no glaze")
	}
	return rapid.IntRange(0, len(s.glazes)-1).Draw(t, "glaze")
}

func (s *studio) renameGlaze(t *rapid.T) {
	s.glazes[s.pick(t)].Name = rapid.StringN(1, 8, -1).Draw(t, "name")
}

func (s *studio) retireGlaze(t *rapid.T) {
	g := &s.glazes[s.pick(t)]
	g.Retired = !g.Retired
}

func (s *studio) dropGlaze(t *rapid.T) {
	i := s.pick(t)
	s.glazes = slices.Delete(s.glazes, i, i+1)
}

func (s *studio) moveGlaze(t *rapid.T) {
	i := s.pick(t)
	s.glazes[0], s.glazes[i] = s.glazes[i], s.glazes[0]
}

func (s *studio) addRule(t *rapid.T) {
	s.settings.Rules = append(s.settings.Rules, tiles.Rule{
		First:  s.glazes[s.pick(t)].Code,
		Second: s.glazes[s.pick(t)].Code,
		Do:     rapid.SampledFrom([]string{plan.Skip, plan.Caution, plan.Allow}).Draw(t, "do"),
	})
}

func (s *studio) dropRules(*rapid.T) { s.settings.Rules = nil }

func (s *studio) setPart(t *rapid.T) {
	s.settings.Part.Pairs = rapid.IntRange(0, 5).Draw(t, "pairs")
	s.settings.Part.Both = rapid.Bool().Draw(t, "both")
}

func (s *studio) setDiagonal(t *rapid.T) {
	s.settings.Diagonal = rapid.SampledFrom([]tiles.Diagonal{tiles.DiagonalSingle, tiles.DiagonalDouble, tiles.DiagonalBoth}).Draw(t, "diagonal")
}

func (s *studio) handleTile(t *rapid.T) {
	if len(s.rows) == 0 {
		t.Skip("no tile")
	}
	row := &s.rows[rapid.IntRange(0, len(s.rows)-1).Draw(t, "row")]
	if row.Status == tiles.Planned || row.Status == tiles.Fired {
		row.Status = rapid.SampledFrom([]tiles.Status{tiles.Fired, tiles.Retired}).Draw(t, "status")
	}
}

// replan runs Extend and holds it to its promise.
func (s *studio) replan(t *rapid.T) {
	r := extend(t, s.settings, s.glazes, s.rows)
	seen := map[tiles.Number]bool{}
	for _, tile := range r.Tiles {
		require.False(t, seen[tile.Number], "number %d stands twice", tile.Number)
		seen[tile.Number] = true
		if pair, old := s.given[tile.Number]; old {
			require.Equal(t, pair, tile.Pair, "number %d changed its pair", tile.Number)
		}
	}
	for n := range s.given {
		require.True(t, seen[n], "number %d is lost", n)
	}
	for _, n := range r.Added {
		require.NotContains(t, s.given, n, "number %d is given again", n)
	}
	again := extend(t, s.settings, s.glazes, r.Tiles)
	require.Equal(t, r.Tiles, again.Tiles, "a second run changes nothing")
	s.rows = r.Tiles
	for _, tile := range r.Tiles {
		s.given[tile.Number] = tile.Pair
	}
	s.inUse(t)
}

// inUse holds the plan to the list: at most one tile in use for a pair, none
// for a glaze that is gone, one for every active glaze's diagonal.
func (s *studio) inUse(t *rapid.T) {
	use := map[tiles.Pair]int{}
	for _, tile := range s.rows {
		if tile.Status != tiles.Planned && tile.Status != tiles.Fired {
			require.NotEqual(t, "", string(tile.Status))
			continue
		}
		use[tile.Pair]++
		require.LessOrEqual(t, use[tile.Pair], 1, "%s is on two tiles", tile.Pair)
		for _, code := range []string{tile.First, tile.Second} {
			if g, ok := tiles.FindGlaze(s.glazes, code); code != "" {
				require.True(t, ok && !g.Retired, "%s uses a glaze that is gone", tile.Pair)
			}
		}
	}
	for _, g := range s.glazes {
		single := tiles.Pair{First: g.Code}
		if s.settings.Diagonal != tiles.DiagonalDouble && !g.Retired {
			require.Equal(t, 1, use[single], "%s has its single", g.Code)
		}
	}
}

// Whatever a teacher does to the list, the rules, the part or the rows'
// status, a number once given is never lost, changed or given again.
func TestNumbersLastThroughAnyHistory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := &studio{given: map[tiles.Number]tiles.Pair{}}
		t.Repeat(map[string]func(*rapid.T){
			"add glaze":    s.addGlaze,
			"rename":       s.renameGlaze,
			"retire":       s.retireGlaze,
			"drop glaze":   s.dropGlaze,
			"move glaze":   s.moveGlaze,
			"add rule":     s.addRule,
			"drop rules":   s.dropRules,
			"part":         s.setPart,
			"diagonal":     s.setDiagonal,
			"handle tile":  s.handleTile,
			"plan":         s.replan,
			"add and plan": func(t *rapid.T) { s.addGlaze(t); s.replan(t) },
		})
	})
}
