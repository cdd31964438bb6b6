// Package earlier keeps the versions of a person's files as they were before
// and after each command that changed them, and brings one back.
//
// They lie in the wall's folder "earlier", each a plain file that opens as the
// one it was: "earlier/tiles/plan 0007 2026-11-28 16.20 5f2a9c1d.csv" is the
// seventh version of tiles/plan.csv, kept that day, and the last word is the
// start of the SHA-256 of what it holds. So no program is needed to read them,
// and a version that a disk has damaged is known by its own name.
package earlier
