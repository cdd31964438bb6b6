package main

import (
	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func forgetCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "forget MAKER",
		Short: "Blank a maker everywhere in the wall's folder",
		Long: `Blank a maker, as written in tiles/log.csv, in the log and in every kept version
of it, and remove the photos of that maker's raw pieces. The rows stay: which
glazes, which load, how each came out. It says what it touched. Backups, sent
files and paper it cannot reach. Your school's rules and your local law say when
this is due.`,
		Args: usageArgs(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			did, err := run.Forget(a.folder(), args[0])
			if err != nil {
				return err
			}
			for _, said := range did.Say() {
				a.step("%s", said)
			}
			return a.done(did, english.Count(len(did.Pieces), "piece", "pieces")+" without a maker now", "")
		},
	}
}
