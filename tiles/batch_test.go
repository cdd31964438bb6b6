package tiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestBatchNames(t *testing.T) {
	for _, c := range []struct{ glaze, name, says string }{
		{"KM", "3", "KM 3"}, {"KM", "KM 3", "KM 3"}, {"KM", "km 3", "KM 3"}, {"KM", "KM-3", "KM-3"}, {"KM", "km3", "km3"},
		{"KM", "KMA", "KM KMA"}, {"K", "March mix", "K March mix"}, {"", "3", "3"}, {"KM", "KM", "KM KM"},
	} {
		assert.Equal(t, c.says, NameBatch(c.glaze, c.name).String())
	}
	assert.True(t, NameBatch("KM", "3").Same(NameBatch("km", "KM  3")))
	assert.False(t, NameBatch("KM", "3").Same(NameBatch("QM", "3")))
}

func TestABatchsGlazeIsReadFromItsLabel(t *testing.T) {
	for _, c := range []struct {
		label, code string
		want        bool
	}{
		{"KM 3", "km", true}, {"KM-3", "KM", true}, {"B3", "B", true}, {"BF 2", "B", false}, {"B 2", "BF", false}, {"B3 2", "B", false}, {"BF", "B", false},
	} {
		assert.Equal(t, c.want, ReadBatchName(c.label, c.code).Glaze != "", "%+v", c)
	}
}

// Whatever a batch is called, its label on a tile reads back as it.
func TestABatchNameReadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		codes := []string{rapid.StringMatching(`[A-Z]{1,3}`).Draw(r, "first"), rapid.StringMatching(`[A-Z0-9]{1,3}`).Draw(r, "second")}
		glaze := rapid.SampledFrom(codes).Draw(r, "glaze")
		name := NameBatch(glaze, rapid.StringMatching(`(A|KM|k)?[-. ]?[0-9a-cé+;]{1,4}( [a-c]{1,3})?`).Draw(r, "name"))
		back := ReadBatchName(name.String(), codes...)
		assert.Equal(t, name.String(), back.String())
		assert.True(t, name.Same(back))
	})
}
