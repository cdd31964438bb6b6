package chart

// Drawing is a chart: marks on a plane of millimetres, y downwards.
type Drawing struct {
	Width, Height float64
	Title         string // said first to whoever cannot see it
	Words         string // what there is to see
	Marks         []Mark
}

// Shape is what a mark is.
type Shape int

// The shapes of a mark.
const (
	Line  Shape = iota // from X, Y to X2, Y2
	Dot                // filled, at X, Y
	Ring               // a circle round a dot that asks to be looked at
	Words              // text at X, Y: the baseline
)

// Anchor says which end of a text stands at its place.
type Anchor string

// The anchors, as SVG names them.
const (
	Start  Anchor = "start"
	Middle Anchor = "middle"
	End    Anchor = "end"
)

// Mark is one line, dot or text.
type Mark struct {
	Shape  Shape
	X, Y   float64
	X2, Y2 float64   // end of a line
	Size   float64   // width of a line, radius of a dot or ring, height of the text's em; mm
	Dash   []float64 // lengths on and off; nil = unbroken
	Text   string
	Anchor Anchor
	Bold   bool
	Faint  bool // half as strong: grid lines
}

// Sizes on a chart 180 mm wide: its words can be read from the back of a room
// where the chart fills a projected picture (a height of 1:45 of its width).
const (
	width    = 180.0
	text     = 4.2
	small    = 3.6
	thin     = 0.25
	thick    = 0.7
	dot      = 1.3
	ring     = 2.6
	whiskers = 1.6
)

func (d *Drawing) line(x, y, x2, y2, size float64, dash ...float64) {
	d.Marks = append(d.Marks, Mark{Shape: Line, X: x, Y: y, X2: x2, Y2: y2, Size: size, Dash: dash})
}

func (d *Drawing) faint(x, y, x2, y2 float64) {
	d.Marks = append(d.Marks, Mark{Shape: Line, X: x, Y: y, X2: x2, Y2: y2, Size: thin, Faint: true})
}

func (d *Drawing) dot(x, y, radius float64) {
	d.Marks = append(d.Marks, Mark{Shape: Dot, X: x, Y: y, Size: radius})
}

func (d *Drawing) ring(x, y float64) {
	d.Marks = append(d.Marks, Mark{Shape: Ring, X: x, Y: y, Size: ring})
}

func (d *Drawing) words(x, y, size float64, at Anchor, bold bool, s string) {
	d.Marks = append(d.Marks, Mark{Shape: Words, X: x, Y: y, Size: size, Anchor: at, Bold: bold, Text: s})
}
