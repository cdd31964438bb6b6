// Package target says what the square marks look like and where they stand:
// four on the mat that one tile is photographed on, eight around the board
// that the whole wall is photographed on, and one small tag under each tile; and
// what the QR codes of labels look like.
//
// What prints them and what looks for them in a photograph both read it here,
// so paper and program cannot disagree. Lengths are millimetres, x to the
// right and y down from the top left corner of the page or board. Every
// function is pure.
package target
