package tiles

import "fmt"

// Settings is what wall.yaml says of one wall. All lengths are millimetres.
// The yaml names are the ones a teacher types; content reads and checks them.
type Settings struct {
	Name     string      `yaml:"name"`
	Address  string      `yaml:"address"`  // where the site will be served, for the QR codes; "" = nowhere yet
	Language string      `yaml:"language"` // BCP 47, of the teacher's own words
	Cone     string      `yaml:"cone"`     // text: "6" and "06" are not the same
	Diagonal Diagonal    `yaml:"diagonal"`
	Tile     Shape       `yaml:"tile"`
	Kiln     Kiln        `yaml:"kiln"`
	Paper    string      `yaml:"paper"` // letter or a4
	Units    Units       `yaml:"units"` // what sheets and commands say lengths, weights and volumes in; "" = metric
	Labels   Labels      `yaml:"labels"`
	Read     float64     `yaml:"read-from"` // distance the wall is read from
	Rules    []Rule      `yaml:"rules"`
	Part     Portion     `yaml:"part"`
	Dip      Dip         `yaml:"dip"`
	Photo    Photography `yaml:"photo"`
	Log      LogSettings `yaml:"log"`
	Clay     Clay        `yaml:"clay"`
	Retest   Retest      `yaml:"retest"`
	Guesses  bool        `yaml:"guesses"` // show guesses of pairs not fired on the site, once they may be made
}

// Diagonal says what the wall hangs where a glaze meets itself.
type Diagonal string

// What may hang on the diagonal.
const (
	DiagonalSingle Diagonal = "single" // one coat
	DiagonalDouble Diagonal = "double" // two coats of the same glaze
	DiagonalBoth   Diagonal = "both"   // one tile of each
)

// Layout says how the two dips meet on a tile.
type Layout string

// The layouts of a tile.
const (
	LayoutWhole Layout = "whole" // the second covers the first: one area
	LayoutEnds  Layout = "ends"  // dipped from both ends: bands, first at the bottom
	LayoutSides Layout = "sides" // dipped from both sides: upright lanes, first at the left
)

// Shape is the fired test tile.
type Shape struct {
	Width     float64 `yaml:"width"`
	Height    float64 `yaml:"height"`
	Thickness float64 `yaml:"thickness"`
	Foot      float64 `yaml:"foot"` // depth of the foot an upright tile stands on; 0 = flat
	Bare      float64 `yaml:"bare"` // unglazed at the foot
	Layout    Layout  `yaml:"layout"`
	FirstDip  float64 `yaml:"first-dip"`  // what the first dip covers of the glazed length, from its end or side
	SecondDip float64 `yaml:"second-dip"` // what the second covers, from the other
	Shrinkage float64 `yaml:"shrinkage"`  // per cent, wet to fired
	Hole      float64 `yaml:"hole"`       // diameter of the hole it hangs by; 0 = none
	Texture   float64 `yaml:"texture"`    // width of the textured strip; 0 = none
}

// Kiln is the room a firing has.
type Kiln struct {
	Name     string   `yaml:"name"`
	Shelves  []Shelf  `yaml:"shelves"`  // from the top down, as one sees them
	Height   float64  `yaml:"height"`   // inside, from the floor to the lid; 0 = not said
	Post     float64  `yaml:"post"`     // width of a kiln post; three stand on every shelf but the top one; 0 = tiles need not mind them
	Gap      float64  `yaml:"gap"`      // between glazed pieces
	Upright  bool     `yaml:"upright"`  // tiles stand; otherwise they lie
	Tray     float64  `yaml:"tray"`     // how far a waste slab sticks out under a runny tile
	Seed     uint64   `yaml:"seed"`     // places are shuffled from it, the same each time
	Cones    float64  `yaml:"cones"`    // width of a set of cones, kept free in front on every shelf; 0 = none
	Controls []string `yaml:"controls"` // codes of the singles fired again on every shelf of every load

	Thermocouple float64 `yaml:"thermocouple"` // side of the square kept free for it at the right edge; 0 = none
}

// Shelf is one kiln shelf.
type Shelf struct {
	Name  string  `yaml:"name"`
	Shape string  `yaml:"shape"` // rectangle, round or half-round
	Width float64 `yaml:"width"` // diameter where round
	Depth float64 `yaml:"depth"`
}

// Labels says what the labels are printed on.
type Labels struct {
	Sheet  string       `yaml:"sheet"` // name of a built-in sheet or of one below
	Start  int          `yaml:"start"` // first free label on a used sheet, 1 and up
	Right  float64      `yaml:"right"` // the printer's own offset
	Down   float64      `yaml:"down"`
	Font   string       `yaml:"font"` // a font file below the wall, for letters the built-in one lacks
	Sheets []LabelSheet `yaml:"sheets"`
}

// LabelSheet is the geometry of a sheet of labels.
type LabelSheet struct {
	Name    string  `yaml:"name"`
	Paper   string  `yaml:"paper"` // letter, a4, or roll: one label a page, width × height
	Columns int     `yaml:"columns"`
	Rows    int     `yaml:"rows"`
	Width   float64 `yaml:"width"`
	Height  float64 `yaml:"height"`
	Left    float64 `yaml:"left"`
	Top     float64 `yaml:"top"`
	PitchX  float64 `yaml:"pitch-x"`
	PitchY  float64 `yaml:"pitch-y"`
	DPI     int     `yaml:"dpi"` // of a roll's printer, dots an inch; 0 = not said
	Cut     bool    `yaml:"cut"` // plain paper: lines to cut along are printed
}

// PaperRoll is the paper of a label printer.
const PaperRoll = "roll"

// Rule skips or cautions pairs. Every condition given must hold; an empty one
// holds for all. Conditions name a glaze code or a trait.
type Rule struct {
	First  string `yaml:"first"`  // code or trait of the first glaze
	Second string `yaml:"second"` // code or trait of the second glaze
	Either string `yaml:"either"` // code or trait of one of them, first or second
	Do     string `yaml:"do"`     // skip, caution or allow; the last rule that fits decides
	Reason string `yaml:"reason"`
	Line   int    `yaml:"-"`
}

// Portion asks for a balanced part of the wall.
type Portion struct {
	Glazes int      `yaml:"glazes"` // how many glazes the wall is begun with: the preferred ones, then the list's first; 0 = all
	Pairs  int      `yaml:"pairs"`  // how many partners each glaze meets as first and as second; 0 = all
	Both   bool     `yaml:"both"`   // both orders of a pair, or none
	Prefer []string `yaml:"prefer"` // codes whose pairs are made first
}

// Dip is how the studio dips.
type Dip struct {
	Seconds   float64 `yaml:"seconds"`   // length of a first dip
	Dry       float64 `yaml:"dry"`       // minutes between coats
	Stir      float64 `yaml:"stir"`      // minutes between stirrings
	Coats     int     `yaml:"coats"`     // 1 or 2; never more
	Together  int     `yaml:"together"`  // loads dipped in one go, from one second-dip cup a glaze; 0 = the fewest that make a filling worthwhile
	Brush     bool    `yaml:"brush"`     // brushing allowed
	Thickness float64 `yaml:"thickness"` // raw coat, mm
	Loss      float64 `yaml:"loss"`      // per cent lost to drips and the bucket's walls
	Spares    float64 `yaml:"spares"`    // per cent of tiles made over the plan
	Opening   float64 `yaml:"opening"`   // minutes to open, stir, close and wipe a bucket
	Handling  float64 `yaml:"handling"`  // seconds a dip takes beside the time in the glaze: pick up, drain, wipe the foot, set down
	Bucket    float64 `yaml:"bucket"`    // inside diameter of a bucket
	Cup       float64 `yaml:"cup"`       // inside diameter of the cup, where second dips are made from one

	SecondSeconds float64    `yaml:"second-seconds"` // length of a second dip; 0 = as the first
	SecondFrom    SecondFrom `yaml:"second-from"`    // what second coats are put on from; "" = a cup
}

// SecondFrom is what second coats are put on from.
type SecondFrom string

// What second coats may be put on from.
const (
	SecondJar    SecondFrom = "jar"    // a trough filled from a jar that is kept for the glaze's second dips
	SecondTrough SecondFrom = "trough" // a trough filled from the bucket; the rest is thrown away
	SecondBrush  SecondFrom = "brush"
	SecondBucket SecondFrom = "bucket" // the bucket itself, sieved after
	SecondCup    SecondFrom = "cup"    // a round cup filled from the bucket; the rest is thrown away
)

// Clay is what the tiles are made from.
type Clay struct {
	Body    string  `yaml:"body"`    // what it is called; "" = not said
	Bisque  string  `yaml:"bisque"`  // cone of the bisque firing; "" = 04
	Density float64 `yaml:"density"` // of wet clay, kg per litre
	Waste   float64 `yaml:"waste"`   // per cent cut off and not used again
}

// Retest says which tiles are due again when a bucket has a new batch.
type Retest string

// What is due after a remix.
const (
	RetestSingle Retest = "single" // the glaze's single (or double): enough to see whether the batch is another
	RetestAll    Retest = "all"    // every fired tile that the glaze is on
	RetestNone   Retest = "none"
)

// Photography says what stands in the photos to correct color by.
type Photography struct {
	Reference string `yaml:"reference"` // none, ground, grey, greys, chart or controls; "" = what is found
	Chart     string `yaml:"chart"`     // file of patch values below the wall
	Board     Board  `yaml:"board"`

	// Paper is the color of the studio's own mat, L*, a* and b*, as a chart on it
	// showed once; none = an office paper like most.
	Paper []float64 `yaml:"paper"`
}

// Board is where the wall's tiles and marks hang, for one photo of the whole.
type Board struct {
	Width  float64 `yaml:"width"`
	Height float64 `yaml:"height"`
	PitchX float64 `yaml:"pitch-x"` // from a tile's left edge to the next one's
	PitchY float64 `yaml:"pitch-y"`
}

// LogSettings says how the studio's own log is headed.
type LogSettings struct {
	Headings map[string]string `yaml:"headings"` // the studio's heading → ours
	Dates    DateOrder         `yaml:"dates"`    // how 3/4/2026 is meant; "" = such a date is refused
}

// String says the part: "4 glazes", "3 partners a glaze".
func (p Portion) String() string {
	partners := fmt.Sprintf("%d partners a glaze", p.Pairs)
	if p.Pairs == 1 {
		partners = "1 partner a glaze"
	}
	switch {
	case p.Glazes > 0 && p.Pairs > 0:
		return fmt.Sprintf("%d glazes and %s", p.Glazes, partners)
	case p.Glazes > 0:
		return fmt.Sprintf("%d glazes", p.Glazes)
	}
	return partners
}
