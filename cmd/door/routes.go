package door

import (
	"crypto/subtle"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"strings"

	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// mostPhoto bounds a photo of a raw piece, in bytes.
const mostPhoto = 24 << 20

func uploads(r *http.Request) int64 {
	if r.Method == http.MethodPost && r.URL.Path == "/photo" {
		return mostPhoto
	}
	return 0
}

func (d *Door) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /piece", d.form)
	mux.HandleFunc("POST /log", d.log)
	mux.HandleFunc("GET /mine", d.mine)
	mux.HandleFunc("POST /photo", d.photo)
	mux.HandleFunc("GET /kiln", d.kiln)
	mux.HandleFunc("POST /kiln", d.fill)
	mux.HandleFunc("POST /kiln/back", d.back)
	mux.HandleFunc("POST /word", d.word)
	mux.HandleFunc("GET /door/{file}", d.own)
	mux.HandleFunc("GET /", d.catalog)
	return mux
}

// formPage is the form for a piece, in one step or two.
type formPage struct {
	Wrong  []string
	Ask    bool // the word is asked for first
	Choose bool // the glazes are chosen first
	First  []choice
	Second []choice
	Coats  string // "1st Quarry Milk → 2nd Fen Glass"
	Mind   []string
	Sent   sentPiece
	Ways   []choice
	Wiped  bool
	Two    bool
	One    bool // this studio glazes with one coat
}

// form shows the form: for the pair of a tile, for a pair, or to choose one.
func (d *Door) form(w http.ResponseWriter, r *http.Request) {
	wall, err := d.wall()
	if err != nil {
		d.sorry(w, r, err)
		return
	}
	q := r.URL.Query()
	sent := sentPiece{Key: listen.Key(), First: q.Get("first"), Second: q.Get("second")}
	if n, err := tiles.ParseNumber(strings.TrimSpace(q.Get("tile"))); err == nil {
		if t, ok := wall.Tile(n); ok {
			sent.First, sent.Second = t.First, t.Second
		}
	}
	d.show(w, r, http.StatusOK, "piece.html", d.formOf(r, wall, sent, nil))
}

func (d *Door) formOf(r *http.Request, wall tiles.Wall, sent sentPiece, wrong []string) formPage {
	page := formPage{Wrong: wrong, Ask: !d.knows(r), Sent: sent, Ways: wayChoices(wall, sent.How), Wiped: sent.Foot != "", One: wall.Dip.Coats == 1}
	page.First, page.Second = glazeChoices(wall, sent.First), glazeChoices(wall, sent.Second)
	a, _ := sentPiece{Key: "x", First: sent.First, Second: sent.Second}.check(wall, d.wish.Now())
	if page.Choose = a.Piece.First == ""; !page.Choose {
		page.Coats, page.Mind, page.Two = wall.Say(a.Piece.Pair), mind(wall, a.Piece.Pair), a.Piece.Second != ""
		page.Sent.First, page.Sent.Second = a.Piece.First, a.Piece.Second
	}
	return page
}

// savedPage says what a piece is called.
type savedPage struct {
	Piece, Key, Coats string
	Mind              []string
	Photo             bool // it can have a photo
	Said              string
}

// log takes a piece into the log, and answers with what it is called there.
func (d *Door) log(w http.ResponseWriter, r *http.Request) {
	damaged := r.ParseForm() // what of it could not be read would be missing without a word
	get := r.PostFormValue
	sent := sentPiece{get("key"), get("first"), get("second"), get("third"), get("maker"), get("piece"), get("how"), get("where"), get("clay"), get("foot")}
	wall, err := d.wall()
	if err != nil {
		d.sorry(w, r, err)
		return
	}
	if !d.knows(r) {
		d.refuse(w, r, http.StatusForbidden, wall, sent, []string{"Say the studio’s word first."})
		return
	}
	a, wrong := sent.check(wall, d.wish.Now())
	if damaged != nil {
		wrong = append(wrong, "The form came damaged: send it again.")
	}
	if len(wrong) > 0 {
		d.refuse(w, r, http.StatusUnprocessableEntity, wall, sent, wrong)
		return
	}
	if !d.mayWrite(r) {
		w.Header().Set("Retry-After", "60")
		d.refuse(w, r, http.StatusTooManyRequests, wall, sent, []string{"That is a lot of pieces for one phone: wait a minute, then send this one again."})
		return
	}
	called, err := d.intake.TakePiece(a)
	var full record.ErrFull
	switch {
	case errors.As(err, &full):
		d.refuse(w, r, http.StatusInsufficientStorage, wall, sent, []string{"The log is full. Tell the teacher: rows of past years can be put away."})
	case err != nil:
		w.Header().Set("Retry-After", "30")
		d.refuse(w, r, http.StatusServiceUnavailable, wall, sent, []string{"The studio’s computer is busy with the wall. Keep this page, and send it again in a minute: it counts once."})
	case wantsJSON(r):
		w.Header().Set("Content-Type", "application/json")
		_ = json.NewEncoder(w).Encode(map[string]string{"piece": called})
	default:
		d.show(w, r, http.StatusOK, "saved.html", savedPage{Piece: called, Key: a.Key, Coats: wall.Say(a.Piece.Pair), Mind: mind(wall, a.Piece.Pair), Photo: true})
	}
}

func wantsJSON(r *http.Request) bool {
	return strings.Contains(r.Header.Get("Accept"), "application/json")
}

// refuse shows the form again with what was typed and what is wrong.
func (d *Door) refuse(w http.ResponseWriter, r *http.Request, status int, wall tiles.Wall, sent sentPiece, wrong []string) {
	if wantsJSON(r) {
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(status)
		_ = json.NewEncoder(w).Encode(map[string][]string{"wrong": wrong})
		return
	}
	if !keys().MatchString(sent.Key) {
		sent.Key = listen.Key()
	}
	d.show(w, r, status, "piece.html", d.formOf(r, wall, sent, wrong))
}

// sorry says that the wall cannot be read; what is wrong with it is said to the
// teacher, on the bench.
func (d *Door) sorry(w http.ResponseWriter, r *http.Request, _ error) {
	d.show(w, r, http.StatusServiceUnavailable, "sorry.html", nil)
}

// photo keeps a photo of a raw piece for the teacher. Only who has the piece's
// key may send one, and only one.
func (d *Door) photo(w http.ResponseWriter, r *http.Request) {
	page := savedPage{Key: r.FormValue("key")}
	id, known := d.intake.Called(page.Key)
	page.Piece = id
	if !known || !d.knows(r) || !d.mayWrite(r) {
		d.show(w, r, http.StatusForbidden, "lost.html", nil)
		return
	}
	file, _, err := r.FormFile("photo")
	var data []byte
	if err == nil {
		data, err = io.ReadAll(io.LimitReader(file, mostPhoto))
		_ = file.Close()
		_ = r.MultipartForm.RemoveAll()
	}
	if err == nil {
		err = run.KeepPiecePhoto(d.wish.Dir, id, data)
	}
	status := http.StatusOK
	page.Said = "The photo is kept for the teacher. It is never published."
	if err != nil {
		status, page.Said, page.Photo = http.StatusUnprocessableEntity, "The photo was not kept: "+err.Error()+".", true
	}
	d.show(w, r, status, "saved.html", page)
}

// wordCookie remembers that a phone knows the studio's word.
const wordCookie = "twodip-word"

func (d *Door) knows(r *http.Request) bool {
	if d.wish.Word == "" {
		return true
	}
	c, err := r.Cookie(wordCookie)
	return err == nil && subtle.ConstantTimeCompare([]byte(c.Value), []byte(d.proof())) == 1
}

func (d *Door) word(w http.ResponseWriter, r *http.Request) {
	if !d.mayWrite(r) || tiles.Fold(r.PostFormValue("word")) != tiles.Fold(d.wish.Word) {
		d.show(w, r, http.StatusForbidden, "word.html", true)
		return
	}
	http.SetCookie(w, &http.Cookie{Name: wordCookie, Value: d.proof(), Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/piece", http.StatusSeeOther)
}
