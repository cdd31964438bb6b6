package sheet

import (
	"fmt"
	"strconv"

	qr "github.com/piglig/go-qr"

	"github.com/twodip/twodip/tiles"
)

// quiet is the white margin a QR code needs on every side, in modules
// (ISO/IEC 18004).
const quiet = 4

// leastModule is the smallest module, mm, that a phone and a 203 dpi label
// printer still resolve.
const leastModule = 0.33

// code is a QR code ready to draw: the rows of its path in modules, and how
// many modules a side has.
type code struct {
	runs string
	side int
}

// newCode encodes a payload in as few modules as it takes, and in those with as
// much error correction as they leave (level L at least: 7 % of the code may be
// soiled). In a photo of the mat large modules are worth more than redundancy.
// An address stays as it is written: some phones do not open "HTTPS://".
func newCode(payload string) (code, error) {
	c, err := qr.EncodeText(payload, qr.Low)
	if err != nil {
		return code{}, fmt.Errorf("a QR code cannot hold %q: %w", payload, err)
	}
	n := c.Size()
	var b []byte
	for y := range n {
		for x := 0; x < n; x++ {
			run := x
			for run < n && c.Module(run, y) {
				run++
			}
			if run > x {
				for _, v := range [3]int{x, n - 1 - y, run - x} {
					b = append(strconv.AppendInt(b, int64(v), 10), ' ')
				}
				b = append(b, "1 re "...)
				x = run
			}
		}
	}
	return code{string(b), n}, nil
}

// codeFor is the QR code of a tile for a square of the given side, quiet zone
// included. Where the address makes the modules too fine to print it holds the
// tile's number alone; short says so.
func codeFor(n tiles.Number, address string, side float64) (c code, short bool, err error) {
	c, err = newCode(n.Payload(address))
	if err != nil || side/float64(c.side+2*quiet) >= leastModule || address == "" {
		return c, false, err
	}
	c, err = newCode(n.Payload(""))
	return c, true, err
}

// qr draws a code in a square of the given side, quiet zone included, as one
// path in whole modules.
func (p *paper) qr(x, y, side float64, c code) {
	module := side / float64(c.side+2*quiet)
	left, bottom := x+quiet*module, y+side-quiet*module
	scale := points(module)
	p.pdf.RawWriteStr(fmt.Sprintf("q %s 0 0 %s %s %s cm %sf Q\n",
		scale, scale, points(left), points(p.h-bottom), c.runs))
}
