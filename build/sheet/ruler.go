package sheet

import "strconv"

// rulerWords go with every ruler: a page printed to "fit" is scaled, and what
// is cut from it does not match the wall.
const rulerWords = "Print at 100 %, never “fit”: this line must be 100 mm."

// ruler draws a 100 mm ruler with its left end at x, y.
func (p *paper) ruler(x, y float64) {
	d := p.path()
	d.move(x, y)
	d.to(x+100, y)
	for mm := 0; mm <= 100; mm += 10 {
		tall := 2.0
		if mm%50 == 0 {
			tall = 3.2
		}
		d.move(x+float64(mm), y)
		d.to(x+float64(mm), y-tall)
	}
	p.stroke(d, thin)
	for mm := 0; mm <= 100; mm += 50 {
		p.textMiddle(x+float64(mm), y+2.9, small.at(7), strconv.Itoa(mm))
	}
}
