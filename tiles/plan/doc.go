// Package plan turns a glaze list into a wall to make: every ordered pair its
// number, kiln loads, dip runs and materials.
//
// Everything here is arithmetic on the nouns of package tiles: it reads no
// file and no clock, and draws nothing. The same wall gives the same plan.
package plan
