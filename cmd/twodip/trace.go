package main

import (
	"github.com/spf13/cobra"

	"github.com/twodip/twodip/tiles/run"
	"github.com/twodip/twodip/tiles/trace"
)

func traceCommand(a *app) *cobra.Command {
	var figures bool
	c := &cobra.Command{
		Use:   "trace",
		Short: "Ask the log what faulty pieces have in common",
		Long: `Ask tiles/log.csv, for every fault, what its pieces have in common: a glaze, first
or second, a pair, a batch, a load, a shelf, a clay, a way of glazing. Only
what stands out from chance is named, and only what is still true when each
maker's pieces are compared with that maker's own; nobody is named. Where a
load holds both faulty and sound pieces, it must be true within loads too; where
none does, trace names the loads that fit the fault just as well. A row written
twice is counted once. It never says what caused a fault.`,
		Args: usageArgs(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.trace(figures) },
	}
	c.Flags().BoolVar(&figures, "figures", false, "also the numbers: ratios, intervals, chances")
	return c
}

func (a *app) trace(figures bool) error {
	report, err := run.Trace(a.folder())
	if err != nil {
		return err
	}
	a.hintCopies()
	a.sayTrace(report, figures)
	return a.done(report, report.Summary(), "twodip print trace")
}

func (a *app) sayTrace(report trace.Report, figures bool) {
	a.sayRead(report.Read)
	for _, note := range report.Notes() {
		a.step("%s", note)
	}
	for _, f := range report.Faults {
		a.step("\n%s", f.Heading())
		if where := f.SayZones(); where != "" {
			a.step("  %s", where)
		}
		if nothing := f.SayNothing(); nothing != "" && report.Comparable() {
			a.step("  %s", nothing)
		}
		a.sayFindings(f.Found, figures)
		a.sayFindings(f.Gone, figures)
		if look := f.Word.Look(); look != "" {
			a.step("  %s", look)
		}
		if f.Word.Care != "" {
			a.step("  Take care: %s", f.Word.Care)
		}
	}
	if report.Comparable() {
		a.step("\n%s", trace.Caveat)
	}
}

// sayRead says the first of the liberties taken in reading; log says all of
// them when the rows come in, and --json at any time.
func (a *app) sayRead(said []string) {
	const shown = 10
	for i, one := range said {
		if i == shown && len(said) > shown+1 {
			a.step("… and %d more words read another way than written", len(said)-shown)
			return
		}
		a.step("%s", one)
	}
}

func (a *app) sayFindings(list []trace.Finding, figures bool) {
	for _, one := range list {
		for i, sentence := range one.Words {
			if i == 0 {
				a.step("  * %s", sentence)
				continue
			}
			a.step("    %s", sentence)
		}
		if figures {
			a.step("    (%s)", one.Figures)
		}
	}
}
