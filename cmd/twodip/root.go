package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"github.com/twodip/twodip/build/sheet"
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
		benchCommand,
		forgetCommand,
		renameCommand,
		restoreCommand,
		manualCommand,
	}
}

// execute runs one command line and returns the exit status: 0 done, 1 something
// is wrong with the input or the run, 2 wrong usage.
func execute(args []string, in io.Reader, out, err io.Writer) int {
	a := &app{in: in, out: out, err: err}
	root := a.root()
	root.SetArgs(args)
	status := a.status(root.Execute())
	for _, lack := range a.folder().Lacks() {
		a.hint("%s", lack)
	}
	return status
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
	root.SuggestionsMinimumDistance = 2
	root.SetFlagErrorFunc(noFlag)
	root.PersistentFlags().StringVar(&a.wall, "wall", ".", "the wall's folder")
	root.PersistentFlags().BoolVar(&a.json, "json", false, "print the result as JSON, for programs")
	for _, command := range commands() {
		root.AddCommand(command(a))
	}
	return root
}

// usageArgs makes a check of a command's arguments a matter of usage, said by
// how the command is written: the library counts "arg(s)".
func usageArgs(check cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		err := check(c, args)
		switch {
		case err == nil:
			return nil
		case !c.HasParent():
			return usageError{noCommand(c, args[0])}
		case strings.HasPrefix(err.Error(), "accepts "), strings.HasPrefix(err.Error(), "unknown command "):
			return usageError{fmt.Errorf("twodip %s: write it as twodip %s; words with spaces go in quotation marks", strings.Join(append([]string{c.Name()}, args...), " "), c.Use)}
		}
		return usageError{err}
	}
}

// noCommand says that there is no such command, and which one was meant.
func noCommand(root *cobra.Command, word string) error {
	for _, s := range sheet.Sheets() {
		if strings.HasPrefix(s.Name, strings.ToLower(word)) {
			return fmt.Errorf("there is no command %q, but a sheet of that name: twodip print %s", word, s.Name)
		}
	}
	if near := root.SuggestionsFor(word); len(near) > 0 {
		return fmt.Errorf("there is no command %q; did you mean %s?", word, strings.Join(near, " or "))
	}
	return fmt.Errorf("there is no command %q", word)
}

// noFlag says that there is no such option.
func noFlag(c *cobra.Command, err error) error {
	option, _, _ := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(err.Error(), "unknown flag: "), "unknown shorthand flag: "), " in ")
	var lacks *pflag.ValueRequiredError
	var wrong *pflag.InvalidValueError
	switch {
	case errors.As(err, &lacks):
		return usageError{fmt.Errorf("--%s wants a word after it; %s --help says which", lacks.GetFlag().Name, c.CommandPath())}
	case errors.As(err, &wrong):
		return usageError{fmt.Errorf("--%s cannot be %q; %s --help says what it can be", wrong.GetFlag().Name, wrong.GetValue(), c.CommandPath())}
	case !strings.HasPrefix(err.Error(), "unknown "):
		return usageError{err}
	}
	near := ""
	letter := strings.Trim(option, "'-")
	if strings.HasPrefix(option, "'") {
		option = "-" + letter
	}
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if near == "" && letter != "" && strings.HasPrefix(f.Name, letter[:1]) {
			near = "; did you mean --" + f.Name + "?"
		}
	})
	return usageError{fmt.Errorf("%s has no option %s%s", c.CommandPath(), option, near)}
}

// usageError is a command line that cannot be understood.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

// errSaid is returned when every problem has been said already, one by one.
var errSaid = errors.New("said")
