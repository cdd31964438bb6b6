package mark

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
)

// onAllProcessors does n things side by side. Where one of them panics, the
// rest are done and the panic comes up again in the caller, with the stack on
// which it happened: there it can be made that photo's problem, while in a
// goroutine of its own it would end the program.
func onAllProcessors(n int, do func(i int)) {
	var wait sync.WaitGroup
	var first sync.Once
	var fault any
	next := make(chan int)
	one := func(i int) {
		defer func() {
			if p := recover(); p != nil {
				stack := debug.Stack()
				first.Do(func() { fault = fmt.Sprintf("%v\n%s", p, stack) })
			}
		}()
		do(i)
	}
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for i := range next {
				one(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
	if fault != nil {
		panic(fault)
	}
}
