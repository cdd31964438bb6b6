package sheet

// item is a part of a list that runs over pages: a head, or a row that stands
// under the last head before it.
type item struct {
	flowPart
	head  bool
	again flowPart // of a head: what stands in its place where its rows go on over the page
}

// spread puts the items on as few pages as hold them, evenly, so that no page
// is left for a row or two. A page never begins with a row that has no head
// above it, and no head stands last on a page.
func spread(items []item, room float64) [][]flowPart {
	pages := paged(items, room)
	low, high := 0.0, room
	for range 20 {
		middle := (low + high) / 2
		if even := paged(items, middle); len(even) <= len(pages) && fits(even, room) {
			pages, high = even, middle
		} else {
			low = middle
		}
	}
	return pages
}

// paged fills page after page up to the room.
func paged(items []item, room float64) [][]flowPart {
	var pages [][]flowPart
	var page []flowPart
	used := 0.0
	var last item
	for i, it := range items {
		need := it.tall
		for j := i; items[j].head && j+1 < len(items); j++ {
			need += items[j+1].tall
		}
		if len(page) > 0 && used+need > room {
			pages, page, used = append(pages, page), nil, 0
			if !it.head && last.again.draw != nil {
				page, used = append(page, last.again), last.again.tall
			}
		}
		if it.head {
			last = it
		}
		page, used = append(page, it.flowPart), used+it.tall
	}
	if len(page) > 0 {
		pages = append(pages, page)
	}
	return pages
}

// fits says that no page is taller than the room, but for one that holds a
// single row under its heads.
func fits(pages [][]flowPart, room float64) bool {
	for _, page := range pages {
		tall := 0.0
		for _, p := range page {
			tall += p.tall
		}
		if tall > room {
			return false
		}
	}
	return true
}

// addPages draws the pages of a list, after what the flow holds.
func (s *pinned) addPages(pages [][]flowPart) {
	for _, page := range pages {
		s.add(func(body area) {
			y := body.y
			for _, p := range page {
				p.draw(area{body.x, y, body.w, p.tall})
				y += p.tall
			}
		})
	}
}
