package tiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestBriefNamesTheFirstAndCountsTheRest(t *testing.T) {
	var all Problems
	for n := range 3600 {
		all = append(all, Problem{File: "tiles/photos/" + Number(n+1).String() + ".jpg", What: "is not there", Do: "put it back"})
	}
	brief := all.Brief(4)
	assert.Len(t, brief, 5)
	assert.Equal(t, "tiles/photos/5.jpg: and 3595 more like it; put it back", brief[4].Error())
	assert.Len(t, all, 3600)
	assert.Equal(t, all[:5], all[:5].Brief(4), "one that is left is named")
}
