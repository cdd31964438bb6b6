package site

import (
	"errors"
	"runtime"
	"sync"
	"sync/atomic"
)

// each does the same to every item, on all cores. Nothing more is begun once
// something has gone wrong.
func each[T any](items []T, do func(T) error) error {
	workers := min(runtime.GOMAXPROCS(0), len(items))
	errs := make([]error, workers)
	var next atomic.Int64
	var failed atomic.Bool
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			for !failed.Load() {
				i := int(next.Add(1)) - 1
				if i >= len(items) {
					return
				}
				if err := do(items[i]); err != nil {
					errs[w] = err
					failed.Store(true)
				}
			}
		})
	}
	wg.Wait()
	return errors.Join(errs...)
}
