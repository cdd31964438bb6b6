package mark

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// A fault of ours at one tag reaches whoever asked for the tags, who can say
// which photo it was, and does not end the program.
func TestAPanicOnAnotherProcessorReachesTheCaller(t *testing.T) {
	var done atomic.Int32
	defer func() {
		fault := recover()
		require.Contains(t, fault, "index out of range")
		require.Contains(t, fault, "parallel_test.go", "the stack on which it happened")
		require.EqualValues(t, 99, done.Load(), "the others were done")
	}()
	onAllProcessors(100, func(i int) {
		if i == 42 {
			_ = []int{}[i-42]
		}
		done.Add(1)
	})
	t.Fatal("the panic was lost")
}
