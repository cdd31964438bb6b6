package color

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Half white and half black light makes half the light, L* 76; the mean of the
// two L* would be 50.
func TestMeanIsOfLight(t *testing.T) {
	got := Mean([]XYZ{{}, D50}).Lab()
	assert.InDelta(t, 76.07, got.L, 0.01)
	assert.InDelta(t, 0, got.Chroma(), 1e-12)
	assert.Equal(t, XYZ{}, Mean(nil))
}
