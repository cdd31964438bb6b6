package bench

import (
	"context"
	"errors"
	"fmt"
	"net"
	"strings"
	"sync"
	"time"

	"github.com/twodip/twodip/build/produce"
	"github.com/twodip/twodip/cmd/door"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/target"
)

func doorRoom() room {
	return room{path: "/door", name: "Studio’s door", file: "door", wall: true, show: (*Bench).showDoor,
		does: map[string]does{"open": (*Bench).openDoor, "close": (*Bench).closeDoor, "accept": (*Bench).accept, "back": (*Bench).takeBack, "forget": (*Bench).forget}}
}

// studioDoor is the door of the wall that is open, where one was opened.
type studioDoor struct {
	mu  sync.Mutex
	ctx context.Context
	now *door.Door
}

func (s *studioDoor) open() (*door.Door, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.now, s.now != nil && s.now.IsOpen()
}

// begin opens the door, and writes down its address for the sheet that hangs
// above the buckets; opened again it has the key that the sheet says.
func (s *studioDoor) begin(wish door.Wish) (*door.Door, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.now != nil && s.now.IsOpen() {
		return nil, errors.New("the studio’s door is open already: close it first")
	}
	wish.Key = produce.DoorKey(wish.Dir)
	d, err := door.Open(s.ctx, wish)
	if err != nil {
		return nil, err
	}
	if err := produce.KeepDoor(wish.Dir, d.Address()); err != nil {
		d.Close()
		return nil, err
	}
	s.now = d
	return d, nil
}

func (s *studioDoor) end() {
	if d, open := s.open(); open {
		d.Close()
	}
}

// doorPage shows the door, and the rows that came through it.
type doorPage struct {
	Open     bool
	Address  string // as phones open it
	Shown    string // without the key
	Until    string
	Code     string // the path of its code
	Box      string
	Side     int
	Problem  []string
	Places   []string // of this computer on the studio's network
	Typed    map[string]string
	Word     string
	Came     []run.Arrived
	Coats    map[string]string // by key
	Said     string            // how many came, and how many are odd
	Keys     string
	NotBuilt bool
}

// Reads are the files that the page shows.
func (doorPage) Reads() []string { return []string{record.LogFile, record.WaitingFile} }

func (b *Bench) showDoor(a *asked) (any, error) { return b.doorPage(a, nil) }

func (b *Bench) doorPage(a *asked, wrong error) (doorPage, error) {
	page := doorPage{Places: places(), Typed: map[string]string{}, Coats: map[string]string{}, NotBuilt: !a.dir.Has("build/site/index.html")}
	for _, name := range []string{"at", "word", "until", "piece", "maker"} {
		page.Typed[name] = a.PostFormValue(name)
	}
	if page.Typed["at"] == "" && len(page.Places) > 0 {
		page.Typed["at"] = page.Places[0]
	}
	if wrong != nil {
		page.Problem = sentences(wrong)
	}
	if d, open := b.door.open(); open {
		page.Open, page.Address, page.Word = true, d.Address(), d.Word()
		page.Shown, _, _ = strings.Cut(d.Address(), "?")
		if !d.Until().IsZero() {
			page.Until = d.Until().Format("15:04")
		}
		if err := page.draw(); err != nil {
			return page, err
		}
	}
	r, err := run.LoadRecords(a.dir)
	if err != nil {
		return page, err
	}
	page.Came, err = run.NotLookedAt(a.dir, r, time.Now())
	odd := 0
	var keys []string
	for _, one := range page.Came {
		page.Coats[one.Key] = r.Wall.Say(one.Piece.Pair)
		keys = append(keys, one.Key)
		if len(one.Odd) > 0 {
			odd++
		}
	}
	page.Keys = strings.Join(keys, " ")
	page.Said = english.Count(len(page.Came), "row", "rows") + " came from phones."
	if odd > 0 {
		page.Said += fmt.Sprintf(" %d of them %s odd and %s first.", odd, english.Number(odd, "is", "are"), english.Number(odd, "stands", "stand"))
	}
	return page, err
}

// draw lays out the QR code, its quiet zone included, a module a unit.
func (page *doorPage) draw() error {
	c, err := target.NewQR(page.Address)
	if err != nil {
		return err
	}
	var path strings.Builder
	for y := range c.Modules() {
		for x := range c.Modules() {
			if c.Dark(x, y) {
				fmt.Fprintf(&path, "M%d %dh1v1h-1z", x+target.QRQuiet, y+target.QRQuiet)
			}
		}
	}
	page.Code, page.Side = path.String(), c.Modules()+2*target.QRQuiet
	page.Box = fmt.Sprintf("0 0 %d %d", page.Side, page.Side)
	return nil
}

// doorPort is the port that is offered: the same every time, so that a printed
// sheet stays right. It is among those that anybody may use (RFC 6335, 6).
const doorPort = 49317

// places are this computer's addresses on networks near it.
func places() []string {
	var out []string
	addrs, _ := net.InterfaceAddrs()
	for _, a := range addrs {
		if ip, ok := a.(*net.IPNet); ok && !ip.IP.IsLoopback() && !ip.IP.IsLinkLocalUnicast() && ip.IP.To4() != nil {
			out = append(out, net.JoinHostPort(ip.IP.String(), fmt.Sprint(doorPort)))
		}
	}
	return out
}

func (b *Bench) againAtDoor(a *asked, wrong error) error {
	page, err := b.doorPage(a, wrong)
	if err != nil {
		return err
	}
	return again{page}
}

func (b *Bench) openDoor(a *asked) (string, error) {
	wish := door.Wish{Dir: a.dir, Listen: strings.TrimSpace(a.FormValue("at")), Word: strings.TrimSpace(a.FormValue("word"))}
	if typed := a.FormValue("until"); typed != "" {
		at, err := time.ParseInLocation("15:04", typed, time.Local)
		if err != nil {
			return "", b.againAtDoor(a, tiles.Problem{File: "the hour", What: "“" + typed + "” is no time of the day", Do: "write it like 16:30"})
		}
		now := time.Now()
		wish.Until = time.Date(now.Year(), now.Month(), now.Day(), at.Hour(), at.Minute(), 0, 0, time.Local)
		if wish.Until.Before(now) {
			return "", b.againAtDoor(a, tiles.Problem{File: "the hour", What: typed + " is past", Do: "name one later today, or none"})
		}
	}
	if _, err := b.door.begin(wish); err != nil {
		return "", b.againAtDoor(a, err)
	}
	return "/door", nil
}

func (b *Bench) closeDoor(*asked) (string, error) {
	b.door.end()
	return b.notes.leave("/door", note{Said: []string{"The studio’s door is closed. What phones still keep they send when it is open again."}}), nil
}

// accept marks the rows that the page showed; what came since waits for the next look.
func (b *Bench) accept(a *asked) (string, error) {
	marked, err := run.Accept(a.dir, strings.Fields(a.FormValue("keys")))
	if err != nil {
		return "", err
	}
	return b.notes.leave("/door", note{Said: []string{english.Count(marked, "row", "rows") + " marked as looked at."}}), nil
}

// takeBack empties what was said of a piece at the kiln.
func (b *Bench) takeBack(a *asked) (string, error) {
	piece, what, said := strings.TrimSpace(a.FormValue("piece")), run.TakenBack(a.FormValue("what")), "how it came out"
	if what != run.BackResult {
		what, said = run.BackLoad, "its load and shelf"
	}
	if err := run.TakeBack(a.dir, piece, what); err != nil {
		return "", b.againAtDoor(a, err)
	}
	return b.notes.leave("/door", note{Said: []string{"Piece " + piece + ": " + said + " can be said again."}}), nil
}

// forget blanks a maker everywhere in the wall's folder.
func (b *Bench) forget(a *asked) (string, error) {
	did, err := run.Forget(a.dir, a.FormValue("maker"))
	if err != nil {
		return "", b.againAtDoor(a, err)
	}
	return b.notes.leave("/door", note{Said: did.Say()}), nil
}

// openFromStart opens the door with the bench.
func (b *Bench) openFromStart(wish Wish) error {
	if wish.Wall == "" {
		return errors.New("the studio’s door needs a wall: name its folder with --wall")
	}
	d, err := b.door.begin(door.Wish{Dir: folder.At(wish.Wall), Listen: wish.Door})
	if err != nil {
		return err
	}
	_, err = fmt.Fprintln(wish.Out, d.Address())
	return err
}
