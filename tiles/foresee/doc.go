// Package foresee guesses the colors of pairs that have not been fired from
// the singles and the pairs that have, says how far its guesses can be trusted
// on this very wall, and which tiles to fire next to learn most.
//
// It knows glazes by their place in a list, 0 to n−1, and colors as tiles/color
// does: CIELAB, D50, 2°. Everything is a pure function of fired colors: the
// same colors give the same guesses to the last bit.
//
// A guess has two parts. A coat is laid over another by a rule with one number
// a glaze, how well it covers (cover.go, layer.go); what the rule leaves over
// is learnt from the neighbors of a pair, those with the same glaze or with
// glazes of a like color (kinship.go, residue.go). Each fired pair is then left
// out together with its reverse, guessed from all others and held against what
// came out of the kiln (leave.go): these errors say which rule to lean on
// (blend.go), how wide a guess is (radius.go), and whether to speak at all
// (speak.go).
package foresee
