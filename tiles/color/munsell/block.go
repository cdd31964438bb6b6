package munsell

import (
	_ "embed"
	"math"
	"strconv"
	"strings"
	"sync"
)

// The published name blocks; how to remake them stands in tables/make.go.
//
//go:embed tables/blocks.txt
var blocksText string

//go:embed tables/names.txt
var namesText string

// The levels of the ISCC–NBS system that name by blocks: how finely.
const (
	Coarse = 1 // 13 names
	Middle = 2 // 29 names
	Fine   = 3 // 267 names
)

// Block is one of the 267 ISCC–NBS color name blocks, by its number. Source:
// Kelly and Judd, "Color: Universal Language and Dictionary of Names", NBS
// Special Publication 440 (1976).
type Block int

// Name is the block's name at a level: 1 "blue", 2 "purplish blue", 3 "deep
// purplish blue". A level out of range is taken as the nearest one.
func (b Block) Name(level int) string {
	return names()[b-1][min(max(level, Coarse), Fine)-1]
}

// Blocks is how many blocks there are; they are numbered from 1.
const Blocks = 267

var names = sync.OnceValue(readNames)

func readNames() (out [][3]string) {
	for line := range strings.Lines(namesText) {
		out = append(out, [3]string(strings.Split(strings.TrimSpace(line), ",")))
	}
	return out
}

// slice is the blocks of one slice of hue.
type slice struct {
	from, to float64 // hue; to may be the smaller one, across 10RP
	blocks   []bounds
}

// bounds is a block's box: from included, to not.
type bounds struct {
	block                            Block
	chroma, toChroma, value, toValue float64
}

var slices = sync.OnceValue(readSlices)

func readSlices() (out []slice) {
	for line := range strings.Lines(blocksText) {
		f := strings.Fields(line)
		if len(f) == 2 {
			out = append(out, slice{from: must(ParseHue(f[0])), to: must(ParseHue(f[1]))})
			continue
		}
		var v [5]float64
		for i := range v {
			v[i] = must(strconv.ParseFloat(f[i], 64))
		}
		last := &out[len(out)-1]
		last.blocks = append(last.blocks, bounds{Block(v[0]), v[1], v[2], v[3], v[4]})
	}
	return out
}

func (s *slice) holds(hue float64) bool {
	if s.from < s.to {
		return s.from <= hue && hue < s.to
	}
	return s.from <= hue || hue < s.to
}

// Block is the name block the color falls in. Every color falls in exactly
// one: the blocks leave no gap and do not overlap.
func (n Notation) Block() Block {
	hue := math.Mod(n.Hue, 100)
	all := slices()
	for i := range all {
		if !all[i].holds(hue) {
			continue
		}
		for _, b := range all[i].blocks {
			if b.chroma <= n.Chroma && n.Chroma < b.toChroma && b.value <= n.Value && n.Value < b.toValue {
				return b.block
			}
		}
	}
	return Blocks // black: only a color that is not a number comes here
}
