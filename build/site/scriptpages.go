package site

// scriptPages makes the pages that a script fills: comparing, the room, the
// shortlist and the reader's own pieces.
func (m *maker) scriptPages() error {
	for _, p := range []struct{ path, title, kind string }{
		{"room.html", "For the room", "room-page-body"},
		{"compare.html", "Compare tiles", "compare-page-body"},
		{"shortlist.html", "Shortlist", "shortlist-page-body"},
	} {
		if err := m.page(p.path, p.path, m.frame(p.path, p.title, "filled "+p.kind, columnsFile, "show.js")); err != nil {
			return err
		}
	}
	return m.page("kept.html", "kept.html", m.frame("kept.html", "Your pieces", "filled kept-page-body"))
}
