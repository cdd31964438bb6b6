package mark

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/target"
)

func TestFewSaysWhatToDo(t *testing.T) {
	page, err := target.Mat(matSettings)
	require.NoError(t, err)
	_, err = OnMat(Plane{W: 100, H: 100}, []Found{{ID: 0}}, page, 8, 0)
	require.EqualError(t, err, "1 of the mat's 4 marks can be read, and it takes 3; keep every mark in the picture, uncovered, in focus and free of glare")
}
