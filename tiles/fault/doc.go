// Package fault reads a studio's glazing log for what its faults have in
// common, checks pieces before they are loaded, and holds buckets against
// their own tiles. It counts and compares; it never says what caused a fault.
//
// A trace goes: the clerk reads each row kindly (clerk.go); every piece is
// counted for and against all it shares with others, in memory that grows with
// the suspects and not with the rows (suspect.go, count.go); every suspect is
// put to every fault by Fisher's exact test, and Benjamini–Hochberg over all of
// these questions keeps what stands out (trace.go); a second pass sorts the
// pieces by load and by which of these they have (crowd.go), so that each can
// be asked again inside single loads and beside the stronger ones, and is
// found, gone or only a follower (weigh.go); what is left is said in words
// (say.go) with its figures (figures.go) and the test pieces that would settle
// it (separate.go).
//
// Drift goes: what the controls of a load have in common is the load's shift
// (firing.go); a re-test less the shifts of its load and of its tile's load is
// the bucket's own (retest.go); that and its doubt, the charts of package
// control, and the specific gravities give the bucket's state (drift.go).
package fault
