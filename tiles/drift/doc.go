// Package drift compares what each bucket makes today with what hangs on the
// wall: its re-tests with the original tiles.
//
// What the controls of a load have in common is the load's shift (firing.go); a
// re-test less the shifts of its load and of its tile's load is the bucket's
// own (retest.go); that and its doubt, the charts of package control, and the
// specific gravities give the bucket's state (drift.go).
package drift
