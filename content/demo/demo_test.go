package demo

import (
	"bytes"
	"encoding/csv"
	"image/jpeg"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

func shape(layout tiles.Layout) tiles.Shape {
	s := tiles.Shape{Width: 60, Height: 90, Bare: 9, Layout: layout, FirstDip: 54, SecondDip: 54}
	if layout == tiles.LayoutSides {
		s.FirstDip, s.SecondDip = 40, 40
	}
	return s
}

func tile(n tiles.Number, first, second string) tiles.Tile {
	return tiles.Tile{Number: n, Pair: tiles.Pair{First: first, Second: second}}
}

func TestTheSameSeedMakesTheSameBytes(t *testing.T) {
	var one, two bytes.Buffer
	_, err := NewStudio(shape(tiles.LayoutEnds), Seed).JPEG(&one, tile(7, "PI", "SF"))
	require.NoError(t, err)
	_, err = NewStudio(shape(tiles.LayoutEnds), Seed).JPEG(&two, tile(7, "PI", "SF"))
	require.NoError(t, err)
	assert.True(t, bytes.Equal(one.Bytes(), two.Bytes()))
	assert.Less(t, one.Len(), 400_000)
	assert.NotContains(t, one.String(), "Exif")
}

// The colors said are those to be seen: the middle of each zone's left half,
// read back from the JPEG in linear light, is near what the maker says of the
// whole zone. Lamp, camera and JPEG move it by a little only.
func TestTheTrueColorsAreInThePicture(t *testing.T) {
	for _, c := range []struct {
		layout tiles.Layout
		zone   tiles.Zone
		x0, y0 int
	}{
		{tiles.LayoutEnds, tiles.ZoneSecond, 220, 310}, {tiles.LayoutEnds, tiles.ZoneOverlap, 220, 560}, {tiles.LayoutEnds, tiles.ZoneFirst, 220, 840},
		{tiles.LayoutSides, tiles.ZoneFirst, 190, 560}, {tiles.LayoutSides, tiles.ZoneOverlap, 420, 560},
	} {
		var b bytes.Buffer
		truth, err := NewStudio(shape(c.layout), Seed).JPEG(&b, tile(7, "HS", "QM"))
		require.NoError(t, err)
		require.Len(t, truth, 3)
		img, err := jpeg.Decode(&b)
		require.NoError(t, err)
		var r, g, bl, n float64
		for y := c.y0; y < c.y0+130; y++ {
			for x := c.x0; x < c.x0+110; x++ {
				pr, pg, pb, _ := img.At(x, y).RGBA()
				r, g, bl, n = r+color.Linear(float64(pr)/65535), g+color.Linear(float64(pg)/65535), bl+color.Linear(float64(pb)/65535), n+1
			}
		}
		assert.Less(t, color.DE00(labOf(r/n/exposure, g/n/exposure, bl/n/exposure), truth[c.zone]), 4.5, "%s, %s", c.layout, c.zone)
	}
}

func TestOrderChangesTheColor(t *testing.T) {
	s := NewStudio(shape(tiles.LayoutEnds), Seed)
	_, one := s.Picture(tile(1, "LR", "QM"))
	_, two := s.Picture(tile(2, "QM", "LR"))
	assert.Greater(t, color.DE00(one[tiles.ZoneOverlap], two[tiles.ZoneOverlap]), 10.0)
	_, single := s.Picture(tile(3, "LR", ""))
	assert.Len(t, single, 1)
	assert.Contains(t, single, tiles.ZoneWhole)
	_, whole := NewStudio(shape(tiles.LayoutWhole), Seed).Picture(tile(4, "LR", "unknown"))
	assert.Len(t, whole, 1)
	assert.Contains(t, whole, tiles.ZoneOverlap)
}

// Twelve glazes that look alike would be a poor wall: every two of them are
// more than "noticeable" apart (ΔE00 4, common practice, no source).
func TestTheGlazesDiffer(t *testing.T) {
	require.Len(t, looks, 12)
	for a, one := range looks {
		for b, two := range looks {
			if a != b {
				assert.Greater(t, color.DE00(one.base, two.base), 7.0, "%s %s", a, b)
			}
		}
	}
}

func TestTheLogHoldsThePlantedCauses(t *testing.T) {
	files, err := Files()
	require.NoError(t, err)
	for _, name := range []string{"wall.yaml", "content/glazes.csv", "content/our-studio.md"} {
		assert.NotEmpty(t, files[name], name)
	}
	records := Records()
	log := string(records["tiles/log.csv"])
	assert.Equal(t, pieces+1, strings.Count(log, "\n"))
	for _, cause := range []string{",HG,SF,", ",OH,dipped", "pinholing", hotLoad + "," + hotShelf + ",fault"} {
		assert.GreaterOrEqual(t, strings.Count(log, cause), 5, cause)
	}
	assert.Equal(t, records, Records())
}

// Every piece is glazed after its bisque firing and before its glaze firing,
// out of a batch that was mixed by then.
func TestThePiecesGoThroughTheYearInOrder(t *testing.T) {
	days := map[string]string{}
	for _, f := range slices.Concat(glazeFirings(), bisqueFirings()) {
		days[f.name] = f.day.Format(time.DateOnly)
	}
	rows, err := csv.NewReader(bytes.NewReader(Records()["tiles/log.csv"])).ReadAll()
	require.NoError(t, err)
	together := map[string]map[string]bool{}
	for _, r := range rows[1:] {
		day, bisque, load := r[1], r[4], r[9]
		require.Less(t, days[bisque], day, r)
		require.Less(t, day, days[load], r)
		if together[load] == nil {
			together[load] = map[string]bool{}
		}
		together[load][bisque] = true
	}
	for load, bisques := range together {
		assert.Greater(t, len(bisques), 1, "one bisque firing would be %s's shadow", load)
	}
}

// The wall's own tiles are fired before the year goes on, a control is in every
// load after that, and each re-test is fired after its batch was mixed.
func TestTheYearAddsControlsAndRetests(t *testing.T) {
	wall := []tiles.Tile{}
	for i, code := range []string{"HS", "TB", "PP"} {
		one := tile(tiles.Number(i+1), code, "")
		one.Load, one.Status = 1, tiles.Fired
		wall = append(wall, one)
	}
	all := Year(wall)
	require.Equal(t, wall, all[:3])
	controls, retests := map[int]int{}, map[string]tiles.Tile{}
	for i, added := range all[3:] {
		require.Equal(t, tiles.Number(4+i), added.Number)
		if added.Control {
			require.Equal(t, tiles.Number(1), added.Repeats)
			controls[added.Load]++
			continue
		}
		retests[added.SayBatches()] = added
	}
	require.Len(t, controls, autumnWeeks+springWeeks-1)
	require.Len(t, retests, 2)
	fired := glazeFirings()[retestLoad-1].day
	for _, b := range remixes {
		if again, ok := retests[b.name]; ok {
			require.True(t, b.mixed.Before(fired), b.name)
			require.Equal(t, b.glaze, again.First)
		}
	}
	assert.Equal(t, all, Year(wall))
}

func BenchmarkPicture(b *testing.B) {
	s := NewStudio(shape(tiles.LayoutEnds), Seed)
	for b.Loop() {
		s.Picture(tile(7, "PI", "SF"))
	}
}
