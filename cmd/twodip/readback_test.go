package main

import (
	"math"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
)

// said draws what a person may have written: any letters of any alphabet, and
// what tables, shells and pages make something of.
var said = rapid.OneOf(
	rapid.StringMatching(`[\p{L}\p{N}][\p{L}\p{N}\p{P}\p{S} ]{0,20}[\p{L}\p{N}]`),
	rapid.SampledFrom([]string{"", "=1+1", "@SUM(A1)", "-5", "'quoted", "# 7", "a,b;c\td", `say "so"`, "two\nlines", "<script>", "8 café", "8 cafe\u0301", "1,5", "007", "I", "ı", "ß", "0x1F", "1e999", "true"}),
)

// rounded draws a number as a table keeps it.
func rounded(r *rapid.T, name string, low, high float64, places int) float64 {
	tenth := math.Pow10(places)
	return math.Round(rapid.Float64Range(low, high).Draw(r, name)*tenth) / tenth
}

// What a command writes, it and every other reads: whatever readings, tiles and
// log rows the program can make, into a wall as start makes it.
func TestWhatIsWrittenIsReadAgain(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		dir := folder.At(filepath.Join(t.TempDir(), "wall"))
		require.NoError(t, content.Start(dir.Dir()))
		settings, err := content.ReadSettings(dir)
		require.NoError(t, err)
		glazes, err := content.ReadGlazes(dir)
		require.NoError(t, err)
		require.NoError(t, content.CheckRules(settings, glazes).OrNil())
		_, err = content.ReadPages(dir)
		require.NoError(t, err)

		plan := drawnPlan(r, glazes)
		require.NoError(t, record.WriteTiles(dir, plan))
		again, err := record.ReadTiles(dir)
		require.NoError(t, err)
		require.Equal(t, plan, again)

		readings := drawnReadings(r, plan)
		if err := record.WriteReadings(dir, readings); err == nil {
			back, err := record.ReadReadings(dir)
			require.NoError(t, err)
			require.Equal(t, readings, back)
		} else { // one that the table refuses must be refused by itself as well
			require.True(t, refusesOne(readings), "%v", err)
		}

		pieces := drawnPieces(r, glazes)
		_, err = record.AddPieces(dir, settings.Log, []record.Incoming{{File: "log", Pieces: pieces}}, func(p tiles.Piece) tiles.Piece { return p })
		if err == nil {
			log, err := record.ReadLog(dir, settings.Log)
			require.NoError(t, err)
			logbook.NewSeen(log.Each(), glazes)
		}
		for _, file := range []string{record.PlanFile, record.LogFile} {
			require.True(t, dir.Has(file))
		}
		status, out, errs := twodip("check", "--wall", dir.Dir())
		require.Equal(t, 0, status, out+errs)
	})
}

func drawnPlan(r *rapid.T, glazes []tiles.Glaze) (plan []tiles.Tile) {
	for n := range rapid.IntRange(1, 3).Draw(r, "tiles") {
		plan = append(plan, tiles.Tile{
			Number: tiles.Number(n + 1), Pair: tiles.Pair{First: glazes[n].Code}, Status: rapid.SampledFrom([]tiles.Status{tiles.Planned, tiles.Fired, tiles.Retired}).Draw(r, "status"),
			Load: rapid.IntRange(0, 3).Draw(r, "load"), X: rounded(r, "x", 0, 500, 1), Y: rounded(r, "y", 0, 500, 1), Round: 1,
		})
	}
	return plan
}

func drawnReadings(r *rapid.T, plan []tiles.Tile) (readings []tiles.Reading) {
	for _, t := range plan {
		readings = append(readings, tiles.Reading{
			Tile: t.Number, Zone: tiles.ZoneWhole, Carried: t.Pair,
			L: rounded(r, "L", 0, 100, 3), A: rounded(r, "a", -200, 200, 3), B: rounded(r, "b", -200, 200, 3),
			Photo: said.Draw(r, "photo"), Spread: rounded(r, "spread", 0, 60, 2), Doubt: rounded(r, "doubt", 0, 60, 2), Kept: rounded(r, "kept", 0, 1, 4),
			Class: tiles.ClassGrey, Soft: rapid.Bool().Draw(r, "soft"), Away: rapid.Bool().Draw(r, "away"), Bytes: rapid.StringMatching(`[0-9a-f]{16}`).Draw(r, "bytes"), Hash: "5-ab",
		})
	}
	return readings
}

func refusesOne(readings []tiles.Reading) bool {
	for _, one := range readings {
		if record.CheckReading(one) != nil {
			return true
		}
	}
	return false
}

func drawnPieces(r *rapid.T, glazes []tiles.Glaze) (pieces []tiles.Piece) {
	for range rapid.IntRange(1, 3).Draw(r, "pieces") {
		pieces = append(pieces, tiles.Piece{
			ID: said.Draw(r, "piece"), Maker: said.Draw(r, "maker"), Pair: tiles.Pair{First: glazes[0].Code}, Load: said.Draw(r, "load"), Shelf: said.Draw(r, "shelf"),
			Result: said.Draw(r, "result"), Note: said.Draw(r, "note"), Severity: rapid.IntRange(0, 3).Draw(r, "severity"),
		})
	}
	return pieces
}
