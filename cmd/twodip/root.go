package main

import (
	"errors"
	"io"

	"github.com/spf13/cobra"
)

// version is stamped by the release build.
var version = "unreleased"

// commands lists what a person can ask for, in the order of the work. It is a
// function because demo runs the others.
func commands() []func(*app) *cobra.Command {
	return []func(*app) *cobra.Command{
		startCommand,
		demoCommand,
		checkCommand,
		planCommand,
		printCommand,
		measureCommand,
		buildCommand,
		findCommand,
		logCommand,
		traceCommand,
		driftCommand,
		foreseeCommand,
		manualCommand,
	}
}

// execute runs one command line and returns the exit status: 0 done, 1 something
// is wrong with the input or the run, 2 wrong usage.
func execute(args []string, in io.Reader, out, err io.Writer) int {
	a := &app{in: in, out: out, err: err}
	root := a.root()
	root.SetArgs(args)
	return a.status(root.Execute())
}

func (a *app) root() *cobra.Command {
	root := &cobra.Command{
		Use:           "twodip",
		Short:         "Plan, print, measure and publish a wall of fired glaze test tiles",
		Version:       version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          usageArgs(cobra.NoArgs),
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetIn(a.in)
	root.SetOut(a.out)
	root.SetErr(a.err)
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usageError{err} })
	root.PersistentFlags().StringVar(&a.wall, "wall", ".", "the wall's folder")
	root.PersistentFlags().BoolVar(&a.json, "json", false, "say the result as JSON, for programs")
	for _, command := range commands() {
		root.AddCommand(command(a))
	}
	return root
}

// usageArgs makes a check of a command's arguments a matter of usage.
func usageArgs(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if err := check(c, args); err != nil {
			return usageError{err}
		}
		return nil
	}
}

// usageError is a command line that cannot be understood.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// errSaid is returned when every problem has been said already, one by one.
var errSaid = errors.New("said")
