package drift

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
)

// kiln builds a wall by firing: it keeps numbers, readings and days.
type kiln struct {
	wall    tiles.Wall
	batches []tiles.Batch
	loads   []tiles.Load
	doubt   float64
}

func newKiln(doubt float64, codes ...string) *kiln {
	k := &kiln{doubt: doubt}
	for _, c := range codes {
		k.wall.Glazes = append(k.wall.Glazes, tiles.Glaze{Code: c, Name: "Glaze " + c, SG: 1.45})
		k.batches = append(k.batches, tiles.Batch{Glaze: c, Name: "1", MixedOn: "2026-01-01"})
	}
	return k
}

func (k *kiln) load(day string) int {
	n := len(k.loads) + 1
	k.loads = append(k.loads, tiles.Load{Name: strconv.Itoa(n), Date: day})
	return n
}

func (k *kiln) fire(load int, code string, repeats tiles.Number, batch string, l, a, b float64) tiles.Number {
	n := tiles.Number(len(k.wall.Tiles) + 1)
	k.wall.Tiles = append(k.wall.Tiles, tiles.Tile{Number: n, Pair: tiles.Pair{First: code}, Status: tiles.Fired, Repeats: repeats, Load: load, Batches: batchNames(code, batch)})
	k.wall.Readings = append(k.wall.Readings, tiles.Reading{Tile: n, Zone: tiles.ZoneWhole, L: l, A: a, B: b, Doubt: k.doubt})
	return n
}

func batchNames(code, label string) []tiles.BatchName {
	if label == "" {
		return nil
	}
	return []tiles.BatchName{tiles.NameBatch(code, label)}
}

func (k *kiln) drift() Report { return Compare(k.wall, k.batches, k.loads) }

func (d Report) of(code string) Bucket {
	for _, b := range d.Buckets {
		if b.Glaze == code {
			return b
		}
	}
	return Bucket{}
}

// twoLoads fires a white control and KM in two loads; the second lies apart by
// shift as a whole, and KM's batch 3 by drift on top.
func twoLoads(doubt, shift, drift float64) *kiln {
	k := newKiln(doubt, "W", "KM")
	k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "3", MixedOn: "2026-03-01"})
	one, two := k.load("2026-01-10"), k.load("2026-03-10")
	white := k.fire(one, "W", 0, "", 90, 0, 2)
	km := k.fire(one, "KM", 0, "", 45, -10, 12)
	k.fire(two, "W", white, "", 90+shift, 0, 2)
	k.fire(two, "KM", km, "KM 3", 45+shift+drift, -10, 12)
	return k
}

func TestDriftTakesTheFiringOff(t *testing.T) {
	d := twoLoads(0.8, -5, 0).drift()
	b := d.of("KM")
	assert.Equal(t, Matches, b.State, "the load is darker, the bucket is not")
	require.Len(t, b.Retests, 1)
	assert.InDelta(t, 0, b.Retests[0].L, 1)
	assert.True(t, b.Retests[0].Parted)
	assert.Empty(t, d.Due())
	assert.Equal(t, "Load 2, by 1 control: darker by 2.5 than the other loads.", d.Shifts[1].Say())
}

func TestDriftNamesABucketThatNoLongerMatches(t *testing.T) {
	k := twoLoads(0.8, 0, -8)
	d := k.drift()
	b := d.of("KM")
	assert.Equal(t, "Glaze KM, batch 3: no longer matches", b.Say())
	assert.Equal(t, "Tile 4 (load 2) against tile 2: a different color, ΔE00 7.1 ± 2.9, darker by 8.0; the controls of the two loads agree.", b.Words[0])
	assert.Equal(t, []tiles.Batch{{Glaze: "KM", Name: "3", MixedOn: "2026-03-01"}}, d.Due())
	assert.Contains(t, d.Mismatched(k.wall)[2], "no longer matches (re-test 4")
	assert.NotContains(t, d.Mismatched(k.wall), tiles.Number(1))
}

func TestDriftDoesNotActOnDoubt(t *testing.T) {
	for _, doubt := range []float64{0, 6} {
		d := twoLoads(doubt, 0, -6).drift()
		assert.Equal(t, "Glaze KM, batch 3: cannot tell; lay both tiles on one mat", d.of("KM").Say(), "doubt %v", doubt)
		assert.Contains(t, d.of("KM").Words[0], "cannot tell, ΔE00 5.4")
		assert.Empty(t, d.Due())
	}
}

func TestDriftWithoutControlsWaitsForASecondLoad(t *testing.T) {
	k := newKiln(0.8, "KM")
	k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "3", MixedOn: "2026-03-01"})
	km := k.fire(k.load("2026-01-10"), "KM", 0, "", 45, -10, 12)
	k.fire(k.load("2026-03-10"), "KM", km, "KM 3", 39, -10, 12)
	d := k.drift()
	assert.Equal(t, Look, d.of("KM").State)
	assert.Contains(t, d.of("KM").Words[0], "the two loads have no controls that agree, so the firing may be behind it")
	assert.Contains(t, d.Notes[0], "No control tile has a reading")
	k.fire(k.load("2026-03-20"), "KM", km, "KM 3", 39.5, -10, 12)
	assert.Equal(t, Changed, k.drift().of("KM").State)
}

func TestDriftAsksForTheRetestOfANewBatch(t *testing.T) {
	k := newKiln(0.8, "KM")
	k.fire(k.load("2026-01-10"), "KM", 0, "", 45, -10, 12)
	assert.Equal(t, Unknown, k.drift().of("KM").State)
	k.batches = append(k.batches, tiles.Batch{Glaze: "km", Name: "2", MixedOn: "2026-03-01"})
	b := k.drift().of("KM")
	assert.Equal(t, Untried, b.State)
	assert.Equal(t, "Glaze KM, batch 2: not re-tested, mixed 2026-03-01", b.Say())
}

func TestDriftTakesARowOfTheSameBatchForACheckOfItsGravity(t *testing.T) {
	k := newKiln(0.8, "KM")
	for i, sg := range []float64{1.45, 1.46, 1.44, 1.45, 1.46, 1.45, 1.60} {
		k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "1", MixedOn: fmt.Sprintf("2026-02-%02d", i+1), SG: sg})
	}
	b := k.drift().of("KM")
	assert.Equal(t, Look, b.State, "provisional limits do not act")
	require.NotNil(t, b.SG)
	assert.Len(t, b.SG.Chart.Points, 7)
	assert.Contains(t, b.Words[len(b.Words)-1], "Specific gravity 1.60 (2026-02-07, batch 1), target 1.45")
}

// Sums whose order is left to chance differ in their last digits.
func TestDriftIsTheSameToTheLastDigit(t *testing.T) {
	k := newKiln(0.8, "A", "B", "C", "D", "E", "F", "G")
	random := rand.New(rand.NewPCG(3, 9))
	any := func() float64 { return 50 + 10*random.Float64() }
	for load := range 4 {
		n := k.load(fmt.Sprintf("2026-0%d-10", load+1))
		for i, g := range k.wall.Glazes {
			repeats := tiles.Number(i + 1)
			if load == 0 {
				repeats = 0
			}
			k.fire(n, g.Code, repeats, "", any(), any(), any())
		}
	}
	want, err := json.Marshal(k.drift())
	require.NoError(t, err)
	for range 40 {
		got, err := json.Marshal(k.drift())
		require.NoError(t, err)
		require.Equal(t, string(want), string(got))
	}
}

// Specific gravity alone never says that the color has changed, however far out
// one reading is and however many stand before it.
func TestASpecificGravityIsNoColor(t *testing.T) {
	k := newKiln(0.8, "KM")
	for i := range 30 {
		k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "1", MixedOn: fmt.Sprintf("2026-02-%02d", i+1), SG: 1.45 + 0.002*float64(i%3)})
	}
	k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "1", MixedOn: "2026-03-05", SG: 1.51})
	d := k.drift()
	assert.Equal(t, Look, d.of("KM").State)
	assert.Empty(t, d.Due())
}

// What a difference is worth: by one photo, by one sitting, by what the light
// did to strongly colored tiles in both photos. The figures are those measured
// with nine cameras under ten lights.
func TestTheDoubtOfADifference(t *testing.T) {
	one := func(n tiles.Number, photo, taken string, a float64) tiles.Reading {
		return tiles.Reading{Tile: n, Photo: photo, Taken: taken, Zone: tiles.ZoneWhole, L: 50, A: a, Doubt: 5, Class: tiles.ClassGrey, Profile: "sRGB"}
	}
	camera := one(1, "one.jpg", "", 0)
	camera.Class = tiles.ClassCamera
	none := photos{}
	assert.Equal(t, 0.9, none.between(one(1, "one.jpg", "", 0), one(2, "one.jpg", "", 0)))
	assert.Equal(t, 1.5, none.between(camera, one(2, "one.jpg", "", 0)))
	assert.Equal(t, 1.1, none.between(one(1, "one.jpg", "2026-03-01 10:00", 0), one(2, "two.jpg", "2026-03-01 10:20", 0)))
	assert.Equal(t, 6.1, none.between(one(1, "one.jpg", "2026-03-01 10:00", 0), one(2, "two.jpg", "2026-03-02 10:20", 0)))
	assert.Equal(t, 6.1, none.between(one(1, "one.jpg", "", 0), one(2, "two.jpg", "", 0)))
	for _, c := range []struct{ moved, want float64 }{{0.5, 1.2}, {2, 1.8}, {5, 4.1}, {11, 6.3}, {25, math.Hypot(5, 5)}} {
		p := newPhotos([]tiles.Reading{one(8, "one.jpg", "", 40), one(9, "one.jpg", "", 41), one(8, "two.jpg", "", 40+c.moved), one(9, "two.jpg", "", 41)})
		assert.Equal(t, c.want, p.between(one(1, "one.jpg", "", 0), one(2, "two.jpg", "", 0)), "%+v", c)
	}
	grey := newPhotos([]tiles.Reading{one(8, "one.jpg", "", 3), one(9, "one.jpg", "", 3), one(8, "two.jpg", "", 3), one(9, "two.jpg", "", 3)})
	assert.Equal(t, 6.1, grey.between(one(1, "one.jpg", "", 0), one(2, "two.jpg", "", 0)), "grey tiles tell nothing of the light")
}

// Both tiles in one photo are taken wherever there is such a photo.
func TestARetestIsReadBesideItsTile(t *testing.T) {
	k := twoLoads(5, 0, -5)
	assert.Equal(t, Unclear, k.drift().of("KM").State)
	for _, r := range k.wall.Readings {
		r.Photo, r.Doubt = "mat.jpg", 5
		k.wall.Readings = append(k.wall.Readings, r)
	}
	d := k.drift()
	assert.Equal(t, Changed, d.of("KM").State)
	assert.Contains(t, d.of("KM").Words[0], "Tile 4 (load 2) against tile 2, in one photo: a different color, ΔE00 4.6")
}

func TestDriftSaysThatAControlWasRemixed(t *testing.T) {
	k := twoLoads(0.8, 0, 0)
	k.batches = append(k.batches, tiles.Batch{Glaze: "W", Name: "2", MixedOn: "2026-03-05"})
	k.fire(2, "W", 1, "", 90, 0, 2)
	k.fire(k.load("2026-02-01"), "W", 1, "", 90, 0, 2)
	assert.Contains(t, k.drift().Notes[0], "The control Glaze W was remixed (batch 2) before load 2")
}

// Simulated studios: twelve glazes, three control tiles a load, loads that lie
// apart by 1.5 in each axis, readings that err by 0.4, and one batch of which
// the color moved by 5. The moved one must be found and no other accused.
func TestDriftPartsFiringFromBatch(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	studios := 200
	if os.Getenv("TWODIP_LONG") != "" {
		studios = 4000
	}
	found, accused, asked := 0, 0, 0
	for range studios {
		d := simulatedDrift(random)
		for _, b := range d.Buckets {
			switch {
			case b.Glaze == "D" && b.State == Changed:
				found++
			case b.Glaze != "D":
				asked++
				if b.State == Changed {
					accused++
				}
			}
		}
	}
	t.Logf("a batch that moved by 5: found in %d of %d studios; wrongly accused %d of %d others", found, studios, accused, asked)
	assert.GreaterOrEqual(t, float64(found), 0.95*float64(studios))
	assert.LessOrEqual(t, float64(accused), 0.05*float64(asked))
}

func simulatedDrift(random *rand.Rand) Report {
	codes := []string{"A", "B", "C", "D", "E", "F", "G", "H", "I", "J", "K", "L"}
	k := newKiln(0.8, codes...)
	k.wall.Kiln.Controls = []string{"A"}
	noise := func(s float64) float64 { return s * random.NormFloat64() }
	own := map[string]tiles.Number{}
	level := map[string][3]float64{}
	for i := range 2 {
		load := k.load([]string{"2026-01-10", "2026-03-10"}[i])
		shift := [3]float64{noise(1.5), noise(1.5), noise(1.5)}
		fire := func(code string, repeats tiles.Number, batch string, move float64) tiles.Number {
			l := level[code]
			return k.fire(load, code, repeats, batch, l[0]+shift[0]+noise(.4)-move, l[1]+shift[1]+noise(.4), l[2]+shift[2]+noise(.4))
		}
		for _, c := range codes {
			move := 0.0
			if i == 0 {
				level[c] = [3]float64{30 + 50*random.Float64(), noise(12), noise(12)}
				own[c] = fire(c, 0, "", 0)
				continue
			}
			if c == "D" {
				move = 5
			}
			if c != "A" {
				k.batches = append(k.batches, tiles.Batch{Glaze: c, Name: "2", MixedOn: "2026-02-01"})
				fire(c, own[c], c+" 2", move)
			}
		}
		for range 3 {
			fire("A", own["A"], "", 0)
		}
	}
	return k.drift()
}

func TestARetestIsOfTheBatchItWasMadeFor(t *testing.T) {
	km3 := tiles.Batch{Glaze: "KM", Name: "KM-3", MixedOn: "2026-03-01"}
	named := func(labels ...string) (out []tiles.BatchName) {
		for _, l := range labels {
			out = append(out, tiles.ReadBatchName(l, "KM", "QM"))
		}
		return out
	}
	assert.True(t, Retest{batches: named("QM 2", "KM-3")}.isOf(km3, true))
	assert.False(t, Retest{batches: named("KM-2"), Day: "2026-04-01"}.isOf(km3, true))
	assert.True(t, Retest{Day: "2026-04-01"}.isOf(km3, true))
}

func TestMismatchedTakesTheNewestWord(t *testing.T) {
	k := twoLoads(0.8, 0, -6)
	require.Contains(t, k.drift().Mismatched(k.wall), tiles.Number(2))
	k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "4", MixedOn: "2026-04-01"})
	three := k.load("2026-04-10")
	k.fire(three, "W", 1, "", 90, 0, 2)
	k.fire(three, "KM", 2, "KM 4", 45, -10, 12)
	assert.Empty(t, k.drift().Mismatched(k.wall))
	assert.Equal(t, Matches, k.drift().of("KM").State)
}

func TestOneLoadAloneHasNoShift(t *testing.T) {
	k := newKiln(0.8, "W")
	one := k.load("2026-01-10")
	k.fire(one, "W", k.fire(one, "W", 0, "", 90, 0, 2), "", 91, 0, 2)
	assert.Empty(t, k.drift().Shifts)
}

func TestMixesOnADay(t *testing.T) {
	m := logbook.NewMixes([]tiles.Batch{
		{Glaze: "KM", Name: "2", MixedOn: "2026-03-01"}, {Glaze: "km", Name: "1", MixedOn: "2026-01-01"}, {Glaze: "KM", Name: "1", MixedOn: "2026-04-01", SG: 1.5},
	})
	for day, want := range map[string]string{"2025-12-31": "", "2026-01-01": "1", "2026-02-28": "1", "2026-03-01": "2", "2026-05-01": "2", "": ""} {
		b, ok := m.On("Km", day)
		assert.Equal(t, want != "", ok, day)
		assert.Equal(t, want, b.Name, day)
	}
}

func TestGravitiesStandInOrderOfTime(t *testing.T) {
	k := newKiln(0.8, "KM")
	for _, day := range []string{"2026-02-04", "2026-02-02", "2026-02-03", "2026-02-01"} {
		k.batches = append(k.batches, tiles.Batch{Glaze: "KM", Name: "1", MixedOn: day, SG: 1.4 + float64(day[9]-'0')/100})
	}
	var got []float64
	for _, p := range k.drift().of("KM").SG.Chart.Points {
		got = append(got, p.Value)
	}
	assert.InDeltaSlice(t, []float64{1.41, 1.42, 1.43, 1.44}, got, 1e-9)
}

// A tile fired again by hand, without a batch and without a day, is a re-test
// of the only batch there is.
func TestARetestByHandCounts(t *testing.T) {
	k := newKiln(0.8, "W", "KM")
	k.wall.Kiln.Controls = []string{"W"}
	one, two := k.load(""), k.load("")
	white, km := k.fire(one, "W", 0, "", 90, 0, 2), k.fire(one, "KM", 0, "", 45, -10, 12)
	k.fire(two, "W", white, "", 90, 0, 2)
	k.fire(two, "KM", km, "", 39, -10, 12)
	b := k.drift().of("KM")
	assert.Len(t, b.Retests, 1)
	assert.Equal(t, Changed, b.State)
}
