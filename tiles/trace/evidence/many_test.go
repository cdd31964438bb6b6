package evidence

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// hochberg is the worked example of Benjamini and Hochberg, JRSS B 57:289
// (1995), section 4.1: fifteen endpoints of one trial.
var hochberg = []float64{
	0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344,
	0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1,
}

func TestAdjustOnItsAuthorsExample(t *testing.T) {
	qs := Adjust(hochberg)
	named := 0
	for _, q := range qs {
		if q <= 0.05 {
			named++
		}
	}
	assert.Equal(t, 4, named, "the paper rejects the four smallest at 5 %%")
	// R 4: p.adjust(p, "BH").
	for i, want := range []float64{0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.06385714286, 0.06385714286, 0.0645, 0.0765, 0.486} {
		assert.InDelta(t, want, qs[i], 1e-10)
	}
}

func TestAdjustKeepsTheOrderOfTheQuestions(t *testing.T) {
	assert.Equal(t, []float64{0.5, 0.02, 0.5}, Adjust([]float64{0.4, 0.02 / 3, 0.5}))
	assert.Empty(t, Adjust(nil))
}
