package main

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func restoreCommand(a *app) *cobra.Command {
	var wish run.RestoreWish
	return &cobra.Command{
		Use:   "restore [FILE [VERSION]]",
		Short: "List earlier versions of your files, or bring one back",
		Long: `Before a command changes one of your files, the version before is kept in the
folder "earlier" of the wall: each a plain file, named after its day and hour.
Without a name, restore lists what is kept and how it differs. With a name, it
brings back the newest version that differs from the file; with a number too, it
brings back that version. What the file holds now is kept first, so you can undo
this in the same way. A plan keeps the rows of numbers given since.`,
		Args: usageArgs(cobra.MaximumNArgs(2)),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return a.listEarlier()
			}
			wish.File = args[0]
			if len(args) == 2 {
				turn, err := strconv.Atoi(args[1])
				if err != nil || turn < 1 {
					return usageError{fmt.Errorf("%q is not the number of a version; twodip restore lists them", args[1])}
				}
				wish.Turn = turn
			}
			return a.restore(wish)
		},
	}
}

func (a *app) listEarlier() error {
	all, err := run.Earlier(a.folder())
	if err != nil {
		return err
	}
	if a.json {
		return a.done(struct {
			Versions []run.Kept `json:"versions"`
		}{all}, "", "")
	}
	file, files := "", 0
	for _, k := range all {
		if k.File != file {
			file, files = k.File, files+1
			a.step("%s", file)
		}
		mark := " "
		if k.Now {
			mark = "="
		}
		a.step("%5d %s %s  %s", k.Turn, mark, k.At.Format("2 Jan 2006 15:04"), k.Says)
	}
	if len(all) == 0 {
		return a.done(nil, "no earlier version is kept yet: one is, whenever a command changes a file of yours", "")
	}
	return a.done(nil, english.Count(len(all), "version", "versions")+" of "+english.Count(files, "file", "files")+"; = is what the file holds now", "twodip restore FILE VERSION")
}

func (a *app) restore(wish run.RestoreWish) error {
	k, err := run.Restore(a.folder(), wish)
	if err != nil {
		return err
	}
	if k.Now {
		return a.done(k, fmt.Sprintf("%s is as version %d already: nothing is changed", k.File, k.Turn), "")
	}
	return a.done(k, fmt.Sprintf("%s is as it was on %s again (version %d); what it held is kept", k.File, k.At.Format("2 Jan 2006 15:04"), k.Turn), "twodip check")
}
