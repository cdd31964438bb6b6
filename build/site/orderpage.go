package site

import (
	"fmt"
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/english"
)

// OrderView is a teaching page: every pair against its reverse.
type OrderView struct {
	Frame
	Lead   string
	None   string
	Groups []SwapGroup
}

// SwapGroup is the pairs that order changes about as much.
type SwapGroup struct {
	ID, Title string
	Swaps     []Swap
	More      []SwapMore // none or one
}

// Swap is one pair in both orders.
type Swap struct {
	One, Two Swapped
	Distance string
}

// Swapped is one of the two, with its photo.
type Swapped struct {
	Beside
	Photo []PhotoView // none or one
}

// SwapMore is the pairs beyond the first hundred, a line each and folded: a
// wall of sixty glazes has 1,770.
type SwapMore struct {
	Title string
	Lines []SwapLine
}

// SwapLine is one pair in both orders, in a line.
type SwapLine struct {
	One, Two, Glazes, Distance string
}

// mostSwaps is how many pairs are shown with their photos.
const mostSwaps = 100

// swapped is a pair of tiles that differ in order alone.
type swapped struct {
	one, two *hung
	distance float64
	words    string // as if both colors were known for sure
	open     bool   // inside the doubt
}

// orderPage makes order.html.
func (m *maker) orderPage() error {
	const path = "order.html"
	swaps := m.swaps()
	v := OrderView{Frame: m.frame(path, "How much order matters", "order-page-body")}
	if len(swaps) == 0 {
		v.Lead = "The same two glazes, the other one first: is it the same color?"
		v.None = "No pair has been measured in both orders yet. Measure the photos of both tiles, then build the site again."
		return m.page(path, "order.html", v)
	}
	v.Lead = fmt.Sprintf("The same two glazes, the other one first. Of %s measured in both orders, half differ by more than ΔE00 %s. Each row shows where both glazes lie, the order that changes the color most at the top.",
		english.Count(len(swaps), "pair", "pairs"), oneDecimal(swaps[len(swaps)/2].distance))
	var lines []SwapLine
	for i, s := range swaps {
		if n := len(v.Groups); n == 0 || v.Groups[n-1].Title != s.words {
			v.Groups, lines = append(v.Groups, SwapGroup{ID: fmt.Sprintf("group-%d", n+1), Title: s.words}), nil
		}
		g := &v.Groups[len(v.Groups)-1]
		if i < mostSwaps {
			g.Swaps = append(g.Swaps, Swap{m.swappedView(path, s.one), m.swappedView(path, s.two), s.say()})
			continue
		}
		lines = append(lines, SwapLine{s.one.Number.String(), s.two.Number.String(), tiles.Apart(s.one.first.Name) + " and " + tiles.Apart(s.one.second.Name), s.say()})
		g.More = []SwapMore{{Title: english.Count(len(lines), "pair", "pairs") + ", a line each", Lines: lines}}
	}
	for i, g := range v.Groups {
		n := len(g.Swaps)
		for _, more := range g.More {
			n += len(more.Lines)
		}
		v.Groups[i].Title = strings.TrimSuffix(english.Sentence(g.Title+": "+english.Count(n, "pair", "pairs")), ".")
	}
	return m.page(path, "order.html", v)
}

// swappedView shows one of a pair's two orders on a page at path.
func (m *maker) swappedView(path string, h *hung) Swapped {
	s := Swapped{Beside: m.beside(path, h, h.colorWords())}
	s.Photo, _ = h.photoView(root(path), h.thumb)
	return s
}

// say says the difference, and whether it is inside the doubt.
func (s swapped) say() string {
	if s.open {
		return oneDecimal(s.distance) + "; inside the doubt of these photos"
	}
	return oneDecimal(s.distance)
}

// swaps lists the pairs measured in both orders, the largest difference first.
func (m *maker) swaps() []swapped {
	var all []swapped
	for _, h := range m.hung {
		o := m.other(h)
		if o == nil || !h.Own() || m.own[h.Pair.Key()] != h || h.Number > o.Number || !h.read || !o.read {
			continue
		}
		d := color.DE00(h.lab, o.lab)
		all = append(all, swapped{h, o, d, bandWords(d), d <= together(h.reading.Doubt, o.reading.Doubt)})
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].distance > all[j].distance })
	return all
}
