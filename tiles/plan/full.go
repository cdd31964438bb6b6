package plan

import "github.com/twodip/twodip/tiles"

// Full is the kiln's shelves, from the bottom up, each with as many tiles
// without waste slabs as one load holds: places without numbers, for a drawing.
func Full(s tiles.Settings) []Shelf {
	rooms := newPlacing(s, nil, nil).rooms
	var out []Shelf
	for i, r := range rooms {
		shelf := Shelf{Shelf: r.shelf, Level: i + 1, Clear: clearance(s), Posts: postsOn(s, i, len(rooms)), Kept: keptOn(s, r.shelf)}
		shelf.Depth = depthOf(r.shelf)
		for _, at := range r.spots(0) {
			shelf.Places = append(shelf.Places, Placement{X: at.x, Y: at.y, Width: r.plain.width, Depth: r.plain.depth})
		}
		out = append(out, shelf)
	}
	return out
}
