package site

// RoomView is the room view: a page that a script fills.
type RoomView struct {
	Frame
	Drawings []Order // two coats, one coat
}

// scriptPages makes the pages that a script fills: comparing, the room, and
// the reader's own pieces.
func (m *maker) scriptPages() error {
	room := RoomView{
		Frame:    m.frame("room.html", "For the room", "room-page-body", "data/columns.js", "find.js"),
		Drawings: []Order{m.sample(), m.drawOrder("one coat", true, "", "", "")},
	}
	if err := m.page("room.html", "room.html", room); err != nil {
		return err
	}
	compare := m.frame("compare.html", "Compare tiles", "compare-page-body", "data/columns.js", "find.js")
	if err := m.page("compare.html", "compare.html", compare); err != nil {
		return err
	}
	return m.page("kept.html", "kept.html", m.frame("kept.html", "Your pieces", "kept-page-body"))
}
