package site

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
)

// columns is the wall as the browser's scripts read it: one array a property,
// and a dictionary for what repeats. 50,000 tiles are 395 KB compressed this
// way, and the browser reads them three times as fast as objects.
type columns struct {
	Glazes glazeColumns `json:"glazes"`
	Dict   dictionaries `json:"dict"`

	Tile   []int `json:"tile"`
	First  []int `json:"first"`  // into Glazes
	Second []int `json:"second"` // into Glazes; -1 = one coat
	Status []int `json:"status"` // into Dict
	Load   []int `json:"load"`   // 0 = none
	Photo  []int `json:"photo"`  // 1 = has a photo
	Repeat []int `json:"repeat"` // 1 = repeats another tile
	Read   []int `json:"read"`   // 1 = has a color
	Lab    []int `json:"lab"`    // L, a, b of each tile, in hundredths
	Mottle []int `json:"mottle"` // 1 = strongly mottled
	Parts  []int `json:"parts"`  // L, a, b of two parts of each tile, in hundredths; empty where no tile has parts
	Doubt  []int `json:"doubt"`  // in tenths; 0 = not known
	Class  []int `json:"class"`  // into Dict
	Hex    []int `json:"hex"`    // red, green, blue as one number
	Sides  []int `json:"sides"`  // the same of the 1st alone and the 2nd alone of each tile; -1 = not measured
	Size   []int `json:"size"`   // of the small photo, into Sizes; -1 = no photo
	Family []int `json:"family"` // into Dict; -1 = no color
	Name   []int `json:"name"`   // into Dict; -1 = no color
	Seen   []int `json:"seen"`   // faults seen, into Dict; -1 = none
	Marks  []int `json:"marks"`  // short cautions, a bit each: see Dict

	Sizes    [][2]int `json:"sizes"`    // width and height, px
	Drawings []Order  `json:"drawings"` // of two coats, of one
	Alone    int      `json:"alone"`    // 1 = the wall's first column is one coat alone
	Address  string   `json:"address"`  // where the site is published; "" = not said

	Table []wordRow `json:"words"` // the words people search with
	Cone  string    `json:"cone"`
	Bands []band    `json:"bands"`
	Same  string    `json:"same"`
	Open  string    `json:"open"`
	From  float64   `json:"openAbove"`
	Means string    `json:"means"`
	Phone float64   `json:"phone"` // ± ΔE00 of a color sampled from somebody's own photo
	SRGB  []float64 `json:"srgb"`  // linear light to XYZ D50, row by row
	P3    []float64 `json:"p3"`
	White []float64 `json:"white"`
}

type glazeColumns struct {
	Code   []string `json:"code"`
	Name   []string `json:"name"`
	Finish []string `json:"finish"`
	Cone   []string `json:"cone"`
	Words  []string `json:"words"` // all else the teacher wrote of it: color, traits, notes, cautions
	Page   []string `json:"page"`
	State  []string `json:"state"` // of the bucket; "" = not said
}

type dictionaries struct {
	Status []string   `json:"status"`
	Class  []string   `json:"class"`
	Family []string   `json:"family"`
	Name   []string   `json:"name"`
	Seen   []string   `json:"seen"`
	Marks  []dictMark `json:"marks"`
}

// dictMark is a short caution: bit k of a tile's marks is the k-th.
type dictMark struct {
	ID   string `json:"id"`
	Says string `json:"says"`
	Long bool   `json:"long,omitempty"` // not on small cards
}

func dictMarks() []dictMark {
	list := make([]dictMark, len(marks))
	for k, one := range marks {
		list[k] = dictMark{one.id, one.says, one.long}
	}
	return list
}

// dataColumns joins the wall's tiles into columns.
func (m *maker) dataColumns() columns {
	c := columns{Cone: m.Wall.Cone, Bands: bands, Same: same, Open: unsure, From: color.Evident, Means: meansOnly, Phone: phoneDoubt,
		SRGB: flat(color.SRGBToXYZ), P3: flat(displayP3), White: []float64{color.D50.X, color.D50.Y, color.D50.Z}}
	index := c.addGlazes(m.glaze)
	var status, class, families, names, seen dict
	sizes := map[[2]int]int{}
	c.Drawings = []Order{m.sample(), m.drawOrder("", true, "", "", "")}
	c.Alone, c.Address = flag(m.both), m.Wall.Address
	for _, h := range m.hung {
		second := -1
		if !h.Single() {
			second = index[tiles.CodeKey(h.Second)]
		}
		c.Tile = append(c.Tile, int(h.Number))
		c.First = append(c.First, index[tiles.CodeKey(h.First)])
		c.Second = append(c.Second, second)
		c.Status = append(c.Status, status.of(h.stageWords()))
		c.Load = append(c.Load, h.Load)
		c.Photo = append(c.Photo, flag(h.photo.ok()))
		c.Repeat = append(c.Repeat, flag(!h.Own()))
		faults, _ := m.seen(h)
		c.Seen = append(c.Seen, seen.of(strings.Join(faults, ", ")))
		c.Marks = append(c.Marks, h.marks)
		c.addColor(h, &class, &families, &names)
		c.addLook(m, h, sizes)
	}
	c.Dict = dictionaries{status.all(), class.all(), families.all(), names.all(), seen.all(), dictMarks()}
	return c.withoutEmptyParts()
}

func (c *columns) addGlazes(gs []tiles.Glaze) map[string]int {
	index := map[string]int{}
	for i, g := range gs {
		index[tiles.CodeKey(g.Code)] = i
		c.Glazes.Code = append(c.Glazes.Code, g.Code)
		c.Glazes.Name = append(c.Glazes.Name, g.Name)
		c.Glazes.Finish = append(c.Glazes.Finish, g.Finish)
		c.Glazes.Cone = append(c.Glazes.Cone, g.Cone)
		words := strings.Join(append([]string{g.Color, g.Notes}, g.Cautions...), " ")
		for _, t := range g.Traits {
			words += " " + string(t)
		}
		c.Glazes.Words = append(c.Glazes.Words, strings.TrimSpace(words))
		c.Glazes.State = append(c.Glazes.State, string(g.Bucket))
		c.Glazes.Page = append(c.Glazes.Page, glazePath(g.Code))
	}
	return index
}

// addColor adds the color columns of a tile; zeros where it has not been read.
func (c *columns) addColor(h *hung, class, families, names *dict) {
	c.Read = append(c.Read, flag(h.read))
	c.Mottle = append(c.Mottle, flag(h.mottled()))
	if !h.read {
		c.Lab = append(c.Lab, 0, 0, 0)
		c.Parts = append(c.Parts, 0, 0, 0, 0, 0, 0)
		c.Doubt = append(c.Doubt, 0)
		c.Class = append(c.Class, -1)
		c.Hex = append(c.Hex, 0)
		c.Family = append(c.Family, -1)
		c.Name = append(c.Name, -1)
		return
	}
	c.Lab = append(c.Lab, hundredths(h.lab)...)
	one, two := h.lab, h.lab
	if ps := h.reading.Parts; len(ps) == 2 {
		one = color.Lab{L: ps[0].L, A: ps[0].A, B: ps[0].B}
		two = color.Lab{L: ps[1].L, A: ps[1].A, B: ps[1].B}
	}
	c.Parts = append(append(c.Parts, hundredths(one)...), hundredths(two)...)
	c.Doubt = append(c.Doubt, int(math.Round(10*h.reading.Doubt)))
	c.Class = append(c.Class, class.of(string(h.reading.Class)))
	c.Hex = append(c.Hex, onScreen(h.lab))
	c.Family = append(c.Family, families.of(family(h.lab)))
	c.Name = append(c.Name, names.of(color.Name(h.lab, 3)))
}

// withoutEmptyParts leaves the parts out where they say no more than the mean.
func (c columns) withoutEmptyParts() columns {
	for i := range c.Tile {
		for k := range 6 {
			if c.Parts[6*i+k] != c.Lab[3*i+k%3] {
				return c
			}
		}
	}
	c.Parts = nil
	return c
}

// displayP3 takes linear Display P3 light to XYZ D50: a phone's photo may be
// wider than sRGB. Primaries: SMPTE RP 431-2; white D65.
var displayP3 = color.RGBToXYZ([3][2]float64{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}}, [2]float64{0.3127, 0.3290})

func flat(m color.Matrix) []float64 {
	return []float64{m[0][0], m[0][1], m[0][2], m[1][0], m[1][1], m[1][2], m[2][0], m[2][1], m[2][2]}
}

func hundredths(c color.Lab) []int {
	return []int{int(math.Round(100 * c.L)), int(math.Round(100 * c.A)), int(math.Round(100 * c.B))}
}

func flag(is bool) int {
	if is {
		return 1
	}
	return 0
}

func (m *maker) seen(h *hung) (faults, says []string) {
	if m.Seen == nil {
		return nil, nil
	}
	return m.Seen(h.Pair)
}

// columnsFile is the wall's data and what reads it.
const columnsFile = "data/columns.js"

// columnsScript is the columns as a classic script that holds one JSON string:
// a page opened from disk may load a script, and nothing else.
func (m *maker) columnsScript() ([]byte, error) {
	c := m.dataColumns()
	c.Table = m.look.words
	data, err := json.Marshal(c)
	if err != nil {
		return nil, err
	}
	literal, err := json.Marshal(string(data))
	if err != nil {
		return nil, err
	}
	return slices.Concat(m.look.scripts[columnsFile], []byte("twodip.data=JSON.parse("), literal, []byte(");\n")), nil
}

// id tells this wall's notes on a device from another wall's, also where both
// are opened from disk.
func (m *maker) id() string {
	sum := uint64(14695981039346656037) // FNV-1a
	for _, b := range []byte(m.Wall.Name + "\n" + m.Wall.Address) {
		sum = (sum ^ uint64(b)) * 1099511628211
	}
	return strconv.FormatUint(sum, 36)
}
