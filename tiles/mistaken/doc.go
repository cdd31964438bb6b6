// Package mistaken finds photographs that may be of another tile than the one
// they are kept under: tile 42 photographed as 24, two labels exchanged.
//
// Every tile of a glaze shows that glaze again: the first coat of every pair is
// its first's single once more, and the second on bare clay likewise. So each
// coat is held against the others of its glaze, in light of how far those lie
// apart among themselves, with what their loads moved taken off.
package mistaken
