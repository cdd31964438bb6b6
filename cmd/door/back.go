package door

import (
	"net/http"
	"slices"
	"strings"
	"sync"

	"github.com/twodip/twodip/tiles/record"
)

// tap is what one tap at the kiln wrote into the cells of a piece.
type tap struct {
	Piece  string
	filled record.Cells
}

// Says is what the tap said of the piece.
func (t tap) Says() string {
	switch {
	case t.filled["faults"] != "":
		return t.filled["faults"]
	case t.filled["result"] != "":
		return t.filled["result"]
	case t.filled["load"] == "":
		return "on shelf " + t.filled["shelf"]
	}
	return "into load " + t.filled["load"]
}

// taps are what each phone tapped at the kiln since the door was opened: a wrong
// one can be taken back by the phone that made it.
type taps struct {
	mu sync.Mutex
	by map[string][]tap // by phone, the last first
}

// How many taps of a phone can be taken back, and of how many phones.
const (
	mostTaps   = 12
	mostPhones = 2000
)

func (ts *taps) note(phone string, t tap) {
	if phone == "" || len(t.filled) == 0 {
		return
	}
	ts.mu.Lock()
	defer ts.mu.Unlock()
	if ts.by == nil || len(ts.by) > mostPhones {
		ts.by = map[string][]tap{}
	}
	all := slices.Insert(ts.by[phone], 0, t)
	ts.by[phone] = all[:min(len(all), mostTaps)]
}

func (ts *taps) last(phone string) []tap {
	ts.mu.Lock()
	defer ts.mu.Unlock()
	return slices.Clone(ts.by[phone])
}

// of is the phone's last tap of a piece.
func (ts *taps) of(phone, piece string) (tap, bool) {
	for _, t := range ts.last(phone) {
		if strings.EqualFold(t.Piece, piece) {
			return t, true
		}
	}
	return tap{}, false
}

// drop forgets the phone's last tap of a piece.
func (ts *taps) drop(phone, piece string) {
	ts.mu.Lock()
	defer ts.mu.Unlock()
	all := ts.by[phone]
	if i := slices.IndexFunc(all, func(t tap) bool { return strings.EqualFold(t.Piece, piece) }); i >= 0 {
		ts.by[phone] = slices.Delete(slices.Clone(all), i, i+1)
	}
}

// phoneOf is the phone's own cookie; "" where it keeps none.
func phoneOf(r *http.Request) string {
	c, err := r.Cookie(phoneCookie)
	if err != nil {
		return ""
	}
	return c.Value
}

// back takes back what the phone itself wrote last of a piece.
func (d *Door) back(w http.ResponseWriter, r *http.Request) {
	get := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	page := kilnPage{Load: get("load"), Shelf: get("shelf")}
	id, phone := get("piece"), phoneOf(r)
	made, known := d.taps.of(phone, id)
	switch {
	case !d.knows(r):
		page.Wrong = []string{"Say the studio’s word first."}
	case !known:
		page.Wrong = []string{"This phone said nothing of that piece that it can take back. Ask the teacher."}
	case !d.mayFill(r):
		page.Wrong = []string{"That was very fast: wait a minute."}
	default:
		if err := d.intake.EmptyPiece(id, made.filled); err != nil {
			page.Wrong = []string{err.Error()}
		} else {
			d.taps.drop(phone, id)
		}
	}
	if len(page.Wrong) > 0 {
		d.showKiln(w, r, http.StatusUnprocessableEntity, page)
		return
	}
	d.backToKiln(w, r, page)
}
