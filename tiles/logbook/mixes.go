package logbook

import (
	"sort"

	"github.com/twodip/twodip/tiles"
)

// Mixes is the bucket record in order of time, for asking which batch was in
// use on a day.
type Mixes struct {
	byGlaze map[string][]tiles.Batch
}

// NewMixes orders the record. A batch written again later is a check of its
// specific gravity, not a new mix: its first day counts.
func NewMixes(batches []tiles.Batch) Mixes {
	m := Mixes{byGlaze: map[string][]tiles.Batch{}}
	sorted := append([]tiles.Batch(nil), batches...)
	sort.SliceStable(sorted, func(i, j int) bool { return sorted[i].MixedOn < sorted[j].MixedOn })
	seen := map[[2]string]bool{}
	for _, b := range sorted {
		code := tiles.CodeKey(b.Glaze)
		if b.MixedOn == "" || seen[[2]string{code, tiles.Fold(b.Name)}] {
			continue
		}
		seen[[2]string{code, tiles.Fold(b.Name)}] = true
		m.byGlaze[code] = append(m.byGlaze[code], b)
	}
	return m
}

// On is the batch of the glaze in use on a day ("2006-01-02"): the newest one
// mixed on or before it. ok is false before the first, and without a day.
func (m Mixes) On(code, day string) (tiles.Batch, bool) {
	list := m.byGlaze[tiles.CodeKey(code)]
	i := sort.Search(len(list), func(i int) bool { return list[i].MixedOn > day })
	if i == 0 || day == "" {
		return tiles.Batch{}, false
	}
	return list[i-1], true
}

// Newest is the batch of the glaze in use now.
func (m Mixes) Newest(code string) (tiles.Batch, bool) {
	list := m.byGlaze[tiles.CodeKey(code)]
	if len(list) == 0 {
		return tiles.Batch{}, false
	}
	return list[len(list)-1], true
}

// Remixed says whether the record holds more than one batch of the glaze.
func (m Mixes) Remixed(code string) bool { return len(m.byGlaze[tiles.CodeKey(code)]) > 1 }
