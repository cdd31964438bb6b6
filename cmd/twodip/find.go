package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func findCommand(a *app) *cobra.Command {
	var wish run.FindWish
	c := &cobra.Command{
		Use:   "find COLOR|PHOTO",
		Short: "The tiles nearest to a color or to what a photo shows",
		Long: "List the tiles whose measured color is nearest to a color, by CIEDE2000.\n" +
			"A mottled tile is found by its color as a whole or by either of its two main colors.\n\n" +
			"COLOR is '#5a7f91' (sRGB) or 'lab(48 -8 -14)' (D50), in quotes. A PHOTO of one of the\n" +
			"wall's tiles is read as measure reads it, and that tile comes first. In any other\n" +
			"photo, the color is read from the thing that stands out from its background, or from\n" +
			"the middle of the picture where nothing does.",
		Example: "  twodip find '#5a7f91'\n  twodip find 'lab(48 -8 -14)' --most 5\n  twodip find leaf.jpg",
		Args:    usageArgs(oneColor),
		RunE: func(_ *cobra.Command, args []string) error {
			if wish.Most < 1 {
				return usageError{fmt.Errorf("--most %d: ask for 1 tile or more", wish.Most)}
			}
			wish.What = args[0]
			return a.find(wish)
		},
	}
	c.Flags().IntVar(&wish.Most, "most", 12, "how many tiles to list")
	c.Flags().BoolVar(&wish.Guesses, "with-guesses", false, "after the tiles, also list pairs not fired yet, by their guessed color")
	return c
}

func oneColor(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return errors.New("find takes one color, in quotes, such as '#5a7f91' or 'lab(48 -8 -14)', or one photo")
	}
	return nil
}

func (a *app) find(wish run.FindWish) error {
	found, err := run.Find(a.folder(), wish)
	if err != nil {
		return err
	}
	if !a.json {
		a.showFound(found)
		a.showFoundGuesses(found)
	}
	return a.done(found, fmt.Sprintf("%d nearest of %s with a reading", len(found.Tiles), english.Count(found.Of, "tile", "tiles")), "")
}
