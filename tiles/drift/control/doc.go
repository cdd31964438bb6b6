// Package control draws the line between a bucket's ordinary wobble and a
// change: individuals charts and their run rules. It knows nothing of glazes.
package control
