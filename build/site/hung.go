package site

import (
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
)

// hung is a tile with everything the site knows of it.
type hung struct {
	tiles.Tile
	first, second tiles.Glaze // second is empty on a single
	reading       tiles.Reading
	read          bool
	lab           color.Lab // of reading, where read
	photo, thumb  picture
	again         []*hung // its repeats: controls and re-tests
	due           string  // why it has to be made again
	marks         int     // its short cautions, a bit each: see marks
}

// hanging is what hangs on the wall, and where.
type hanging struct {
	hung     []*hung // every tile, in the order of the plan
	by       map[tiles.Number]*hung
	own      map[tiles.Pair]*hung // the wall's own tile of a pair, by its Key
	readings map[tiles.Number][]tiles.Reading
	glaze    []tiles.Glaze  // in the order they hang
	index    map[string]int // of a glaze in them, by its code's key
	both     bool           // some glaze hangs both alone and twice
}

// join brings glazes, tiles and readings together.
func (m *maker) join() error {
	m.by = make(map[tiles.Number]*hung, len(m.Wall.Tiles))
	m.own = make(map[tiles.Pair]*hung, len(m.Wall.Tiles))
	glazes := m.inOrder(m.Wall)
	m.readings = tiles.ByTile(m.Wall.Readings)
	for _, t := range m.Wall.Tiles {
		h := &hung{Tile: t, first: glazes[tiles.CodeKey(t.First)]}
		if !t.Single() {
			h.second = glazes[tiles.CodeKey(t.Second)]
		}
		if r, ok := tiles.ColorOf(m.readings[t.Number], t.Number); ok {
			h.reading, h.read, h.lab = r, true, color.Lab{L: r.L, A: r.A, B: r.B}
		}
		if m.Due != nil {
			h.due = m.Due(t.Number)
		}
		h.marks = m.markBits(h)
		m.hung = append(m.hung, h)
		m.by[t.Number] = h
		m.hang(h)
	}
	for _, h := range m.hung {
		if first, ok := m.by[h.Repeats]; ok {
			first.again = append(first.again, h)
		}
	}
	m.both, m.index = m.hangsBoth(), map[string]int{}
	for i, g := range m.glaze {
		m.index[tiles.CodeKey(g.Code)] = i
	}
	return m.checkNames()
}

// hang notes the wall's own tile of a pair: not a repeat, and not a retired
// one while another is there.
func (w *hanging) hang(h *hung) {
	if !h.Own() {
		return
	}
	key := h.Pair.Key()
	if have, ok := w.own[key]; !ok || have.Status == tiles.Retired {
		w.own[key] = h
	}
}

// inOrder lists the glazes in the teacher's order, then those that only
// tiles still name, and returns them by the code's key.
func (w *hanging) inOrder(wall tiles.Wall) map[string]tiles.Glaze {
	by := map[string]tiles.Glaze{}
	add := func(g tiles.Glaze) {
		key := tiles.CodeKey(g.Code)
		if _, ok := by[key]; !ok && g.Code != "" {
			by[key] = g
			w.glaze = append(w.glaze, g)
		}
	}
	for _, g := range wall.Glazes {
		add(g)
	}
	for _, t := range wall.Tiles {
		for _, code := range []string{t.First, t.Second} {
			if _, ok := by[tiles.CodeKey(code)]; !ok && code != "" {
				add(wall.Glaze(code))
			}
		}
	}
	return by
}

// checkNames refuses what cannot be the name of a page.
func (w *hanging) checkNames() error {
	var wrong tiles.Problems
	for _, g := range w.glaze {
		if strings.ContainsAny(g.Code, `/\:*?"<>|.#%& `) {
			wrong = append(wrong, tiles.Problem{File: "content/glazes", Line: g.Line,
				What: "code " + g.Code + " cannot be the name of a page", Do: "use letters and digits only"})
		}
	}
	return wrong.OrNil()
}

// glazePath is the path of a glaze's page below the site.
func glazePath(code string) string {
	if folder.IsDevice(code) { // Windows opens no file of that name
		code += "-glaze"
	}
	return "glaze/" + code + ".html"
}
