package sheet

import (
	"fmt"
	"strconv"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/target"
)

// quiet is the white margin a QR code needs on every side, in modules.
const quiet = target.QRQuiet

// leastModule is the smallest module, mm, that a phone and a 203 dpi label
// printer still resolve.
const leastModule = 0.33

// qrCode is a QR qrCode ready to draw: the rows of its path in modules, and how
// many modules a side has.
type qrCode struct {
	runs string
	side int
}

// newCode encodes a payload.
func newCode(payload string) (qrCode, error) {
	c, err := target.NewQR(payload)
	if err != nil {
		return qrCode{}, err
	}
	n := c.Modules()
	var b []byte
	for y := range n {
		for x := 0; x < n; x++ {
			run := x
			for run < n && c.Dark(run, y) {
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
	return qrCode{string(b), n}, nil
}

// codeFor is the QR code of a tile for a square of the given side, quiet zone
// included. Where the address makes the modules too fine to print it holds the
// tile's number alone; short says so.
func codeFor(n tiles.Number, address string, side float64) (c qrCode, short bool, err error) {
	c, err = newCode(n.Payload(address))
	if err != nil || side/float64(c.side+2*quiet) >= leastModule || address == "" {
		return c, false, err
	}
	c, err = newCode(n.Payload(""))
	return c, true, err
}

// qr draws a code in a square of the given side, quiet zone included, as one
// path in whole modules.
func (p *paper) qr(x, y, side float64, c qrCode) {
	module := side / float64(c.side+2*quiet)
	left, bottom := x+quiet*module, y+side-quiet*module
	scale := points(module)
	p.pdf.RawWriteStr(fmt.Sprintf("q %s 0 0 %s %s %s cm %sf Q\n",
		scale, scale, points(left), points(p.h-bottom), c.runs))
}
