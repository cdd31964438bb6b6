// Package trace asks a studio's glazing log what its faulty pieces have in
// common. It counts and compares; it never says what caused a fault.
//
// The logbook's clerk reads each row; every piece is counted for and against
// all it shares with others, in memory that grows with the suspects and not
// with the rows (suspect.go, count.go); every suspect is put to every fault by
// Fisher's exact test, and Benjamini–Hochberg over all of these questions keeps
// what stands out (trace.go); a second pass sorts the pieces by load and by
// which of these they have (crowd.go), so that each can be asked again inside
// single loads and beside the stronger ones, and is found, gone or only a
// follower (weigh.go); what is left is said in words (say.go) with its figures
// (figures.go) and the test pieces that would settle it (separate.go).
package trace
