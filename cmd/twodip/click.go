package main

import (
	"github.com/inconshreveable/mousetrap"
	"github.com/spf13/cobra"
)

// clicked says that the program was started by a double click in Explorer: its
// window would close before anybody has read what it says.
func clicked() bool {
	cobra.MousetrapHelpText = "" // cobra's own answer to that is to say so and wait
	return mousetrap.StartedByExplorer()
}

// wanted is the command line that is meant: a double click, which can say
// nothing, means the bench.
func wanted(args []string, clicked bool) []string {
	if clicked && len(args) == 0 {
		return []string{"bench"}
	}
	return args
}
