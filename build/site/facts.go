package site

import (
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
)

// facts lists what is known of the tile besides its color.
func (m *maker) facts(h *hung) []Fact {
	var fs []Fact
	add := func(name, value string) {
		if value = strings.TrimSpace(value); value != "" {
			fs = append(fs, Fact{name, value})
		}
	}
	add("State", english.Sentence(h.state()))
	add("Today", h.today())
	add("Cone", m.Wall.Cone)
	if h.Load > 0 {
		add("Load", m.loadWords(h))
	}
	add("Shelf", h.Shelf)
	add("Batch", h.SayBatches())
	add("Code on the label", h.Number.Payload(m.Wall.Address))
	if h.read {
		add("Measured", english.Sentence(correctionWords(h.reading)))
		add("Mottling", mottleWords(h.reading.Spread))
		add("Profile", profileWords(h.reading.Profile))
		add("Warning", english.Sentence(h.reading.Warning))
		if h.reading.Away {
			add("Photo", "Not here any more. The color was measured while it was.")
		}
	}
	_, seen := m.seen(h)
	add("Faults seen on pieces", strings.Join(seen, "; "))
	return fs
}

// state says how far the tile has come.
func (h *hung) state() string {
	switch {
	case h.due != "":
		return "due again: " + h.due
	case h.stage() == tiles.Fired && h.Own() && h.Single():
		return "fired; the wall’s own tile of this glaze alone"
	case h.stage() == tiles.Fired && h.Own():
		return "fired; the wall’s own tile of this pair"
	case h.stage() == tiles.Fired:
		return "fired; repeats tile " + h.Repeats.String()
	}
	return h.waiting()
}

// today says of each bucket whether it can be dipped in; nothing where the wall
// keeps no such list.
func (h *hung) today() string {
	if h.first.Bucket == tiles.BucketUnsaid {
		return ""
	}
	said := h.first.Name + " " + string(h.first.Bucket)
	if !h.Single() && !h.Double() {
		said += ", " + h.second.Name + " " + string(h.second.Bucket)
	}
	return said
}

// loadWords says the load and what is known of its firing.
func (m *maker) loadWords(h *hung) string {
	name := tiles.Number(h.Load).String()
	for _, l := range m.Loads {
		if l.PlanLoad() == h.Load {
			if l.Name != name {
				name += " (firing " + l.Name + ")"
			}
			return strings.Join(nonEmpty(name, l.Date, l.Kiln, l.Schedule), ", ")
		}
	}
	return name
}

func nonEmpty(all ...string) []string {
	var some []string
	for _, s := range all {
		if s != "" {
			some = append(some, s)
		}
	}
	return some
}

// mottleWords says the spread inside the tile's area.
func mottleWords(spread float64) string {
	switch {
	case spread <= 0:
		return ""
	case spread < 2:
		return "even"
	case spread < mottledFrom:
		return "lightly mottled"
	}
	return "strongly mottled: one number says little about it"
}
