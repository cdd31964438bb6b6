package contact

import (
	"bytes"
	"encoding/xml"
	"errors"
	"math"
	"strconv"
	"strings"

	"github.com/twodip/twodip/tiles/geometry"
)

// Drawing is what a photo's part shows on its picture, read back: outlines are
// in upright pixels of the photo.
type Drawing struct {
	Width, Height int // of the photo
	Outlines      []geometry.Quad
	Zones         []geometry.Quad
	Reference     []geometry.Quad
	Paper         []geometry.Quad
}

// The colors that a part's outlines have, by what they are of.
const (
	paperLine     = "#fff"
	referenceLine = "#0ff"
	outlineLine   = "#ff0"
	zoneLine      = "#0f0"
)

// ReadPart reads a part that WritePart wrote. Whatever else the file holds is
// passed over: it lies in a folder that anybody may have given.
func ReadPart(part []byte) (Drawing, error) {
	from, to := bytes.Index(part, []byte("<svg")), bytes.Index(part, []byte("</svg>"))
	if from < 0 || to < from {
		return Drawing{}, errors.New("holds no drawing")
	}
	var svg struct {
		ViewBox string `xml:"viewBox,attr"`
		Lines   []struct {
			Points string `xml:"points,attr"`
			Stroke string `xml:"stroke,attr"`
		} `xml:"g>polygon"`
	}
	read := xml.NewDecoder(bytes.NewReader(part[from : to+len("</svg>")]))
	read.Strict = false
	if err := read.Decode(&svg); err != nil {
		return Drawing{}, err
	}
	var d Drawing
	box := numbers(svg.ViewBox)
	if len(box) != 4 || !(box[2] >= 1 && box[3] >= 1 && box[2] < 1e6 && box[3] < 1e6) {
		return d, errors.New("has no size")
	}
	d.Width, d.Height = int(box[2]), int(box[3])
	into := map[string]*[]geometry.Quad{paperLine: &d.Paper, referenceLine: &d.Reference, outlineLine: &d.Outlines, zoneLine: &d.Zones}
	for _, line := range svg.Lines {
		n, of := numbers(line.Points), into[line.Stroke]
		if len(n) != 8 || of == nil {
			continue
		}
		*of = append(*of, geometry.Quad{{X: n[0], Y: n[1]}, {X: n[2], Y: n[3]}, {X: n[4], Y: n[5]}, {X: n[6], Y: n[7]}})
	}
	return d, nil
}

// numbers reads numbers parted by spaces and commas; none where one is none.
func numbers(s string) []float64 {
	var out []float64
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' }) {
		x, err := strconv.ParseFloat(word, 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return nil
		}
		out = append(out, x)
	}
	return out
}
