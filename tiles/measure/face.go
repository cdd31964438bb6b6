package measure

import (
	"github.com/twodip/twodip/tiles"

	"github.com/twodip/twodip/tiles/geometry"
)

// How a tile was found, as a reading says it.
const (
	FoundMarks   = "marks"
	FoundOutline = "outline"
	FoundMiddle  = "middle"
	FoundByHand  = "by hand"
)

// Face is where a tile's face lies in a photo.
type Face struct {
	Tile  tiles.Number
	Quad  geometry.Quad
	Found string // one of the above

	// Shape cuts away what of the quad is not tile; nil = nothing.
	Shape *Mask

	// Middle says that the quad is the middle of the tile only, so that no
	// zone but the middle one can be told.
	Middle bool

	Warning string // one sentence; "" = none
	soft    bool   // the picture is soft there
}

// Mask is a coarse picture of where the tile is.
type Mask struct {
	In    []bool // row by row
	Width int
	Scale float64 // pixels of the photo a cell covers, along each side
}

// has says whether the mask covers the place.
func (m *Mask) has(x, y float64) bool {
	cx, cy := int(x/m.Scale), int(y/m.Scale)
	at := cy*m.Width + cx
	return x >= 0 && y >= 0 && cx < m.Width && at < len(m.In) && m.In[at]
}

// shrink takes the cells along the border away, a number of times.
func (m *Mask) shrink(times int) {
	for range times {
		in := make([]bool, len(m.In))
		for i := m.Width + 1; i < len(in)-m.Width-1; i++ {
			in[i] = m.In[i] && m.In[i-1] && m.In[i+1] && m.In[i-m.Width] && m.In[i+m.Width]
		}
		m.In = in
	}
}
