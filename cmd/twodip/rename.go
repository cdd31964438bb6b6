package main

import (
	"fmt"
	"maps"
	"slices"

	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

func renameCommand(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "rename OLD NEW",
		Short: "Give a glaze another code; its numbers, photos and rows stay",
		Long: `Put a glaze's new code in the place of its old one: in the glaze list, in
wall.yaml, and in the plan, the readings, the log and the bucket record. Tiles
keep their numbers and photos. A code typed over in the list alone would be a
glaze that is gone and another that has come.`,
		Args: usageArgs(cobra.ExactArgs(2)),
		RunE: func(_ *cobra.Command, args []string) error { return a.rename(args[0], args[1]) },
	}
}

func (a *app) rename(old, now string) error {
	did, err := run.Rename(a.folder(), old, now)
	if err != nil {
		return err
	}
	for _, file := range did.Made {
		a.step("%-20s the new code", file)
	}
	for _, file := range slices.Sorted(maps.Keys(did.Rows)) {
		a.step("%-20s %s", file, english.Count(did.Rows[file], "row", "rows"))
	}
	return a.done(did, fmt.Sprintf("%s is %s now (%s); every number stays", old, now, did.Name), "twodip build, and print the labels and bucket cards of "+now+" again")
}
