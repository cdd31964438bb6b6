// Package door is the studio's door: what the phones in the studio see of a
// wall. It serves the catalog, which is the built site, and takes pieces into
// the glazing log. It leads nowhere else: not to the bench, not to the wall's
// folder, not to photos of pieces, and no maker ever comes out of it.
//
// It is plain HTTP on the studio's own network, and keeps out of it all that
// would matter: initials at the most, which go in and never out.
package door

import (
	"context"
	"fmt"
	"net"
	"time"

	"github.com/twodip/twodip/cmd/listen"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// Wish is how the door is wanted.
type Wish struct {
	Dir    folder.Folder
	Listen string    // address and port; port 0 = a free one
	Key    string    // of its address; "" = a new one
	Word   string    // a word that students must know to write; "" = none
	Until  time.Time // when it closes by itself; zero = with the bench

	Now func() time.Time // the studio's clock, which dates rows; nil = this computer's
}

// Door is an open door.
type Door struct {
	wish    Wish
	address string
	pages   pages
	intake  *run.Intake
	limits  limits
	taps    taps
	known   known
	end     context.CancelFunc
	done    chan struct{}
}

// Open opens the door; it is open until ctx is done, its hour comes, or Close.
func Open(ctx context.Context, wish Wish) (*Door, error) {
	on, err := net.Listen("tcp", wish.Listen)
	if err != nil {
		return nil, fmt.Errorf("the studio’s door cannot listen on %s: %w; choose another address or port", wish.Listen, err)
	}
	if wish.Key == "" {
		wish.Key = listen.Key()
	}
	if wish.Now == nil {
		wish.Now = time.Now
	}
	d := &Door{wish: wish, done: make(chan struct{})}
	if err := d.pages.load(); err != nil {
		_ = on.Close()
		return nil, err
	}
	names := hosts(on.Addr())
	d.address = "http://" + names[0] + "/?key=" + wish.Key
	port := on.Addr().(*net.TCPAddr).Port
	guard := listen.Door{Cookie: fmt.Sprintf("twodip-door-%d", port), Key: wish.Key, Hosts: names, Uploads: uploads,
		Closed: "The studio’s door is closed to this phone. Scan the code on the wall above the buckets once more."}
	ctx, d.end = context.WithCancel(ctx)
	if !wish.Until.IsZero() {
		var cancel context.CancelFunc
		ctx, cancel = context.WithDeadline(ctx, wish.Until)
		context.AfterFunc(ctx, cancel)
	}
	d.intake = run.NewIntake(ctx, wish.Dir)
	go func() {
		defer close(d.done)
		_ = listen.Serve(ctx, on, guard.Guard(d.routes()))
	}()
	return d, nil
}

// Address is what phones open: it holds the key.
func (d *Door) Address() string { return d.address }

// Until is when it closes by itself; zero = with the bench.
func (d *Door) Until() time.Time { return d.wish.Until }

// Word is what students must know; "" = nothing.
func (d *Door) Word() string { return d.wish.Word }

// IsOpen says that it has not closed.
func (d *Door) IsOpen() bool {
	select {
	case <-d.done:
		return false
	default:
		return true
	}
}

// Close closes the door; what is being answered is answered.
func (d *Door) Close() {
	d.end()
	<-d.done
}

// hosts are the names that phones may call this machine by, the best first.
func hosts(at net.Addr) []string {
	tcp := at.(*net.TCPAddr)
	if !tcp.IP.IsUnspecified() {
		return listen.Hosts(at)
	}
	var near, here []string
	addrs, _ := net.InterfaceAddrs()
	for _, a := range addrs {
		ip, ok := a.(*net.IPNet)
		if !ok || ip.IP.IsLinkLocalUnicast() {
			continue
		}
		name := net.JoinHostPort(ip.IP.String(), fmt.Sprint(tcp.Port))
		if ip.IP.IsLoopback() {
			here = append(here, name)
		} else if ip.IP.To4() != nil {
			near = append([]string{name}, near...)
		} else {
			near = append(near, name)
		}
	}
	return append(near, append(here, fmt.Sprintf("localhost:%d", tcp.Port))...)
}
