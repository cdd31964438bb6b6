package site

import (
	"fmt"
	"sort"
	"strings"

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
}

// Swap is one pair in both orders.
type Swap struct {
	One, Two Beside
	Distance string
}

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
		english.Count(len(swaps), "pair", "pairs"), one(swaps[len(swaps)/2].distance))
	for _, s := range swaps {
		if n := len(v.Groups); n == 0 || v.Groups[n-1].Title != s.words {
			v.Groups = append(v.Groups, SwapGroup{ID: fmt.Sprintf("group-%d", n+1), Title: s.words})
		}
		g := &v.Groups[len(v.Groups)-1]
		g.Swaps = append(g.Swaps, Swap{m.beside(path, s.one, s.one.colorWords()), m.beside(path, s.two, s.two.colorWords()), s.say()})
	}
	for i := range v.Groups {
		v.Groups[i].Title = strings.TrimSuffix(english.Sentence(v.Groups[i].Title+": "+english.Count(len(v.Groups[i].Swaps), "pair", "pairs")), ".")
	}
	return m.page(path, "order.html", v)
}

// say says the difference, and whether it is inside the doubt.
func (s swapped) say() string {
	if s.open {
		return one(s.distance) + "; inside the doubt of these photos"
	}
	return one(s.distance)
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
