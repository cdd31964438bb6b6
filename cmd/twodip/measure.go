package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/build/contact"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func measureCommand(a *app) *cobra.Command {
	var forget bool
	c := &cobra.Command{
		Use:   "measure [PHOTO…]",
		Short: "Read the colors of the fired tiles from their photos",
		Long: "Read the colors of the fired tiles from the photos in tiles/photos: JPEG, PNG, HEIC,\n" +
			"WebP or TIFF. A photo is named after its tile (7.jpg, \"7 back.heic\"), or shows the\n" +
			"tile with its label on the photo mat, or the whole board with its marks. Without\n" +
			"names, it reads every photo that is new or changed. Photos are never altered. See\n" +
			"what was cut out and used in build/contact.html; correct it in tiles/by-hand.csv.\n" +
			"Readings are kept as they come: after Ctrl-C it finishes the photos in hand, and the\n" +
			"next run goes on from there. If a photo is moved away, its reading stays and is\n" +
			"marked; --forget-missing takes such readings out, of the photos named or of all.",
		RunE: func(_ *cobra.Command, names []string) error {
			return a.measure(names, forget)
		},
	}
	c.Flags().BoolVar(&forget, "forget-missing", false, "take out the readings of photos that are not here: of those named, or of all")
	return c
}

func (a *app) measure(names []string, forget bool) error {
	ctx, stop := a.interruptible()
	defer stop()
	did, err := run.Measure(ctx, a.folder(), run.MeasureWish{Photos: names, Forget: forget, Sheet: contact.Sheet, Program: ownSum(), Tell: a.bars()})
	if err != nil {
		a.complainAll(did.Problems)
		return err
	}
	return a.sayMeasured(did)
}

// interruptible is done at the first Ctrl-C, or when the system asks the
// program to end; the second ends it at once.
func (a *app) interruptible() (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}

// sayMeasured says what was done, with every photo that could not be read by name.
func (a *app) sayMeasured(did run.Measured) error {
	for _, gone := range did.Gone {
		a.step("%s is not here: its readings were taken out", gone)
	}
	for _, renamed := range did.Renamed {
		a.step("%s", renamed)
	}
	if len(did.Missing) > 0 {
		a.step("note: %s", run.SayMissing(a.folder(), did.Missing, did.Kept))
	}
	if n := did.Outdated; n > 0 {
		a.step("%s read again: this version of twodip measures in another way, so colors and doubts may have moved", english.Count(n, "photo", "photos"))
	}
	for _, w := range english.First(mostNotes, did.Warnings) {
		a.hint("%s", w)
	}
	for _, advice := range did.Advice {
		a.step("%s", advice)
	}
	if did.Measured > 0 {
		a.step("%-20s what was cut out and used: look at it before you trust the colors", run.SheetFile)
	}
	summary := fmt.Sprintf("%s measured, %d unchanged, %s fired", english.Count(did.Measured, "photo", "photos"), did.Unchanged, english.Count(did.Fired, "tile newly", "tiles newly"))
	next := "twodip build"
	if n := len(did.Left); n > 0 {
		summary += fmt.Sprintf("; stopped with %s left: %s", english.Count(n, "photo", "photos"), strings.Join(some(did.Left), ", "))
		next = "twodip measure, which goes on from here"
	}
	if err := a.done(did, summary, next); err != nil {
		return err
	}
	a.complainAll(did.Problems)
	if len(did.Problems)+len(did.Left) > 0 {
		return errSaid
	}
	return nil
}

// some names the first of a long list and counts the rest.
func some(names []string) []string {
	const shown = 8
	if left := len(names) - shown; left > 1 {
		return append(names[:shown:shown], fmt.Sprintf("and %d more", left))
	}
	return names
}
