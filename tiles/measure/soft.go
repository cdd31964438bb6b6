package measure

import (
	"image"

	"github.com/twodip/twodip/tiles/photo"
)

// Bounds on a soft picture.
const (
	leastEdge = 16.0 // codes: weaker edges tell nothing
	softRatio = 0.45 // of an edge's step over a short way to that over four times the way
	edgeShare = 0.01 // of the places, those with the strongest edges
)

// soft says that a part of the photo is out of focus or shaken: its strongest
// edges are much weaker over a short way (2 pixels at 12 megapixels) than over
// four times as long. A sharp edge is as strong over both.
func soft(p *photo.Photo, part image.Rectangle) bool {
	part = part.Intersect(p.Image.Bounds())
	luma := p.Luma()
	short := max(1, 2*max(p.Width(), p.Height())/fullSize)
	far := strongest(luma, part, 4*short)
	return far >= leastEdge && strongest(luma, part, short) < softRatio*far
}

// strongest is the difference, in codes, between neighbors but one on rows of
// square blocks, that a hundredth of the places exceed.
func strongest(luma *image.Gray, part image.Rectangle, side int) float64 {
	n := part.Dx() / side
	if n < 8 {
		return 0
	}
	var counts [256]int
	total := 0
	row := make([]int, n)
	for y := part.Min.Y; y+side <= part.Max.Y; y += 4 * side {
		clear(row)
		for dy := range side {
			line := luma.Pix[luma.PixOffset(part.Min.X, y+dy):]
			for i := range row {
				for _, v := range line[i*side : (i+1)*side] {
					row[i] += int(v)
				}
			}
		}
		for i := 2; i < n; i++ {
			d := (row[i] - row[i-2]) / (side * side)
			counts[max(d, -d)]++
			total++
		}
	}
	rank := int(edgeShare * float64(total))
	for v := 255; v > 0; v-- {
		if rank -= counts[v]; rank < 0 {
			return float64(v)
		}
	}
	return 0
}
