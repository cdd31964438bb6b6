package tiles

import (
	"fmt"
	"strings"
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

// The first twenty are said and the rest counted; one that is left over is said.
func TestManyProblemsAreCounted(t *testing.T) {
	many := func(n int) string {
		var ps Problems
		for i := range n {
			ps = append(ps, Problem{File: "tiles/log.csv", Line: i + 2, What: "is wrong"})
		}
		return ps.Error()
	}
	for n, last := range map[int]string{20: "tiles/log.csv:21: is wrong", 21: "tiles/log.csv:22: is wrong", 22: "… and 2 more", 1254: "… and 1234 more"} {
		lines := strings.Split(many(n), "\n")
		assert.Len(t, lines, min(n, 21), fmt.Sprint(n))
		assert.Equal(t, last, lines[len(lines)-1])
	}
}
