package site

import (
	"sort"
	"strings"

	"github.com/twodip/twodip/tiles"
)

// FindView is the form that finds tiles; it needs a script, and is hidden
// without one.
type FindView struct {
	Guesses []string // how far to trust guesses; none or one
	Filters []Filter
	Leave   []Option // what may be left out
	Only    []Option // what may be asked for alone
	Order   Order    // drawn to show how words were understood
}

// Filter narrows what is found by one property.
type Filter struct {
	ID, Label string
	Options   []Option
}

// Option is one value of a filter.
type Option struct{ Value, Text string }

// findView lists the filters and their values.
func (m *maker) findView() FindView {
	var glazes, finishes, families []Option
	seen := map[string]bool{}
	for _, g := range m.glaze {
		glazes = append(glazes, Option{g.Code, g.Name})
		if key := strings.ToLower(g.Finish); key != "" && !seen["finish "+key] {
			seen["finish "+key] = true
			finishes = append(finishes, Option{key, g.Finish})
		}
	}
	for _, h := range m.hung {
		if !h.read {
			continue
		}
		if name := family(h.lab); !seen["family "+name] {
			seen["family "+name] = true
			families = append(families, Option{name, name})
		}
	}
	sort.Slice(families, func(i, j int) bool { return families[i].Text < families[j].Text })
	return FindView{Order: m.sample(), Leave: leaveOut(), Only: m.onlyReady(), Filters: []Filter{
		{"first", "1st", glazes},
		{"second", "2nd", append([]Option{{"-", "none: one coat"}}, glazes...)},
		{"family", "Color", families},
		{"finish", "Finish", finishes},
	}}
}

// leaveOut lists the cautions whose tiles may be left out of what is found.
func leaveOut() []Option {
	says := map[string]string{"food": "never for food", "runs": "what runs", "crawls": "what crawls", "faults": "what had faults"}
	var list []Option
	for _, one := range marks {
		if text, ok := says[one.id]; ok {
			list = append(list, Option{one.id, text})
		}
	}
	return list
}

// onlyReady is the choice of what can be made today, where the wall says which
// buckets are ready.
func (m *maker) onlyReady() []Option {
	for _, g := range m.glaze {
		if g.Bucket != tiles.BucketUnsaid {
			return []Option{{"ready", "Only what can be made today"}}
		}
	}
	return nil
}
