// Package sheet lays out a wall's paper: labels, the wall grid, and the sheets
// a studio pins up. Lengths are millimetres from a page's top left corner, y
// down; type sizes are points.
//
// Every sheet is one function from a Job to the bytes of a PDF, and the same
// Job gives the same bytes. The package is the only home of gofpdf and of the
// writing of QR codes.
//
// The built-in type is the Go font family (Bigelow & Holmes, BSD licence, in
// golang.org/x/image/font/gofont), drawn after DIN 1450 so that 0 and O, 1, I
// and l stay apart. It has Latin, Greek and Cyrillic letters. Names in Hebrew,
// Arabic, Armenian, Georgian and more, and the figures of tile numbers, are in
// DejaVu Sans (Bitstream Vera and Arev licences, both free, in
// codeberg.org/go-fonts/dejavu). A PDF embeds the letters it uses.
package sheet
