package main

import (
	"fmt"
	"os/exec"
	"runtime"
	"time"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/cmd/bench"
	"github.com/twodip/twodip/tiles"
)

// benchIdle is how long after its last page was closed a bench ends.
const benchIdle = 30 * time.Minute

func benchCommand(a *app) *cobra.Command {
	var at, door string
	var quiet bool
	c := &cobra.Command{
		Use:   "bench",
		Short: "Do the whole job on pages in a browser, on this computer",
		Long: `Serve the bench to this computer only and open it in the browser: glazes, plan,
sheets, photographs, records and the site on pages, over the same folder. The
address holds a key; whoever has it can change the wall. The bench ends with
Ctrl-C, with its own button, or half an hour after its last page was closed.`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(c *cobra.Command, _ []string) error {
			wall := a.wall
			if !a.folder().Has("wall.yaml") {
				if c.Flags().Changed("wall") {
					return tiles.Problem{File: a.wall, What: "is not a wall's folder: it holds no wall.yaml", Do: "name one that does, or leave out --wall and begin a new wall on the bench"}
				}
				wall = ""
			}
			ctx, stop := a.interruptible()
			defer stop()
			wish := bench.Wish{Wall: wall, Listen: at, Door: door, Out: a.out, Program: ownSum(), Idle: benchIdle}
			if !quiet {
				wish.Open = a.openInBrowser
			}
			return bench.Serve(ctx, wish)
		},
	}
	c.Flags().StringVar(&at, "listen", "127.0.0.1:0", "the address to listen on; 0 is any free port")
	c.Flags().StringVar(&door, "door", "", "also open the studio’s door to phones, on this `address:port`; it prints the door’s address second")
	c.Flags().BoolVar(&quiet, "no-open", false, "only print the address")
	return c
}

// openInBrowser asks the system to open an address. Where it cannot, the
// address that was printed is enough.
func (a *app) openInBrowser(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	if err := exec.Command(name, args...).Start(); err != nil {
		fmt.Fprintln(a.err, "hint: open this address in a browser yourself")
	}
}
