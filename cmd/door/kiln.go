package door

import (
	"crypto/hmac"
	"crypto/sha256"
	"encoding/hex"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// proof is what a phone keeps in place of the word.
func (d *Door) proof() string {
	mac := hmac.New(sha256.New, []byte(d.wish.Key))
	mac.Write([]byte(tiles.Fold(d.wish.Word)))
	return hex.EncodeToString(mac.Sum(nil)[:16])
}

// known keeps the wall for a moment: many phones ask at once.
type known struct {
	mu   sync.Mutex
	wall tiles.Wall
	err  error
	at   time.Time
}

func (d *Door) wall() (tiles.Wall, error) {
	d.known.mu.Lock()
	defer d.known.mu.Unlock()
	if time.Since(d.known.at) > 2*time.Second {
		d.known.wall, d.known.err = run.Load(d.wish.Dir)
		d.known.at = time.Now()
	}
	return d.known.wall, d.known.err
}

// onePiece is a piece as the door shows it: never its maker, never its note.
type onePiece struct {
	ID, Coats, Load, Shelf, Says string
}

func shown(w tiles.Wall, p tiles.Piece) onePiece {
	o := onePiece{ID: p.ID, Coats: w.Say(p.Pair), Load: p.Load, Shelf: p.Shelf, Says: "waits for the kiln"}
	switch {
	case len(p.Faults) > 0:
		o.Says = strings.Join(p.Faults, ", ")
	case logbook.Opened(p):
		o.Says = "came out well"
	case p.Load != "":
		o.Says = "in load " + p.Load
	}
	return o
}

// pieces goes through the log in the trade's words.
func (d *Door) pieces(w tiles.Wall, each func(tiles.Piece)) error {
	l, err := record.ReadLog(d.wish.Dir, w.Log)
	if err != nil {
		return err
	}
	clerk := logbook.NewClerk(w.Glazes)
	for p := range l.Each() {
		each(clerk.Piece(p))
	}
	return nil
}

// minePage lists a phone's own pieces, which the phone itself remembers, and
// looks one up by its number.
type minePage struct {
	Asked string
	Found []onePiece
}

func (d *Door) mine(w http.ResponseWriter, r *http.Request) {
	page := minePage{Asked: strings.TrimSpace(r.URL.Query().Get("piece"))}
	wall, err := d.wall()
	if err == nil && page.Asked != "" {
		err = d.pieces(wall, func(p tiles.Piece) {
			if strings.EqualFold(p.ID, page.Asked) {
				page.Found = append(page.Found, shown(wall, p))
			}
		})
	}
	if err != nil {
		d.sorry(w, r, err)
		return
	}
	d.show(w, r, http.StatusOK, "mine.html", page)
}

// kilnPage is for whoever loads and unloads.
type kilnPage struct {
	Wrong   []string
	Ask     bool
	Load    string
	Shelf   string
	Shelves []choice
	Loads   []string // with pieces that have not come out
	Waiting []onePiece
	In      []onePiece // in the load, not said how they came out
	Fault   string     // the piece whose fault is asked for
	Of      *onePiece  // that piece
	Zones   []zoneChoice
	Faults  []faultWord
	Back    []tap // what this phone can take back, the last first
}

func (d *Door) kiln(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	d.showKiln(w, r, http.StatusOK, kilnPage{Load: strings.TrimSpace(q.Get("load")), Shelf: q.Get("shelf"), Fault: q.Get("fault")})
}

func (d *Door) showKiln(w http.ResponseWriter, r *http.Request, status int, page kilnPage) {
	wall, err := d.wall()
	if err == nil {
		err = d.fillKiln(wall, &page)
	}
	if err != nil {
		d.sorry(w, r, err)
		return
	}
	page.Ask, page.Back = !d.knows(r), d.taps.last(phoneOf(r))
	d.show(w, r, status, "kiln.html", page)
}

func (d *Door) fillKiln(wall tiles.Wall, page *kilnPage) error {
	for _, s := range wall.Kiln.Shelves {
		page.Shelves = append(page.Shelves, choice{s.Name, s.Name, s.Name == page.Shelf})
	}
	if page.Fault != "" {
		page.Faults, page.Zones = faultWords(), zoneChoices(tiles.Pair{First: "1", Second: "2"}, wall)
	}
	return d.pieces(wall, func(p tiles.Piece) {
		if page.Fault != "" && page.Of == nil && strings.EqualFold(p.ID, page.Fault) {
			one := shown(wall, p)
			page.Of, page.Zones = &one, zoneChoices(p.Pair, wall)
		}
		switch {
		case logbook.Opened(p) || p.ID == "":
		case p.Load == "":
			page.Waiting = append(page.Waiting, shown(wall, p))
		default:
			if !slices.Contains(page.Loads, p.Load) {
				page.Loads = append(page.Loads, p.Load)
			}
			if strings.EqualFold(p.Load, page.Load) && (page.Shelf == "" || strings.EqualFold(p.Shelf, page.Shelf)) {
				page.In = append(page.In, shown(wall, p))
			}
		}
	})
}

// fill writes where a piece is loaded, or how it came out, into its empty cells.
func (d *Door) fill(w http.ResponseWriter, r *http.Request) {
	get := func(name string) string { return strings.TrimSpace(r.PostFormValue(name)) }
	page := kilnPage{Load: get("load"), Shelf: get("shelf")}
	id, row := get("piece"), record.Cells{}
	switch get("came") {
	case "":
		row["load"], row["shelf"] = page.Load, page.Shelf
	case "good":
		row["result"] = "good"
	default:
		row["result"], row["faults"], row["zone"] = "fault", get("came"), get("zone")
	}
	switch {
	case !d.knows(r):
		page.Wrong = []string{"Say the studio’s word first."}
	case row["result"] == "" && (page.Load == "" || utf8.RuneCountInString(page.Load+page.Shelf) > 80):
		page.Wrong = []string{"Say which load it goes into, in a word or a number."}
	case row["faults"] != "" && logbook.FindWord(row["faults"]).Sign == "":
		page.Wrong = []string{"Choose the fault from the list."}
	case row["zone"] != "" && !isZone(row["zone"]):
		page.Wrong = []string{"Choose where the fault sits from the list."}
	case !d.mayFill(r):
		page.Wrong = []string{"That was very fast: wait a minute."}
	default:
		filled, err := d.intake.FillPiece(id, row)
		if err != nil {
			page.Wrong = []string{err.Error()}
		} else {
			d.taps.note(phoneOf(r), tap{id, filled})
		}
	}
	if len(page.Wrong) > 0 {
		d.showKiln(w, r, http.StatusUnprocessableEntity, page)
		return
	}
	d.backToKiln(w, r, page)
}

func (d *Door) backToKiln(w http.ResponseWriter, r *http.Request, page kilnPage) {
	http.Redirect(w, r, "/kiln?load="+url.QueryEscape(page.Load)+"&shelf="+url.QueryEscape(page.Shelf)+"#pieces", http.StatusSeeOther)
}
