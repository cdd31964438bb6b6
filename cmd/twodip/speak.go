package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"time"
	"unicode"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/run"
)

// This file decides how the program speaks: finished steps and the summary on
// standard output, complaints and progress on standard error.

// step says one finished step, numbers first. With --json it says nothing.
func (a *app) step(format string, args ...any) {
	if !a.json {
		fmt.Fprintln(a.out, harmless(fmt.Sprintf(format, args...)))
	}
}

// done says the summary and the next step as the last two things, or the
// result as one JSON object with --json. An empty next says no next step.
func (a *app) done(result any, summary, next string) error {
	if a.json {
		enc := json.NewEncoder(a.out)
		enc.SetIndent("", "  ")
		return enc.Encode(result)
	}
	fmt.Fprintln(a.out, harmless(summary))
	if next != "" {
		fmt.Fprintln(a.out, harmless("next: "+next))
	}
	return nil
}

// mostNotes is how many notes of a kind are said; the rest are counted.
const mostNotes = 20

// complain says what is wrong, one line a problem.
func (a *app) complain(err error) {
	var several tiles.Problems
	var one tiles.Problem
	switch {
	case errors.As(err, &several):
		err = content.Placed(a.folder(), several)
	case errors.As(err, &one):
		err = content.Placed(a.folder(), tiles.Problems{one})
	}
	for line := range strings.Lines(err.Error()) {
		fmt.Fprintln(a.err, harmless(readable(strings.TrimSuffix(line, "\n"))))
	}
}

// readable cuts a line that nobody would read to its end short in the middle:
// what is wrong and what to do stand at its ends.
func readable(line string) string {
	const most, ends = 2000, 600
	letters := []rune(line)
	if len(letters) <= most {
		return line
	}
	return string(letters[:ends]) + " … " + string(letters[len(letters)-ends:])
}

// hint says what to do about it.
func (a *app) hint(format string, args ...any) {
	fmt.Fprintln(a.err, harmless("hint: "+fmt.Sprintf(format, args...)))
}

// patch is a swatch, the one thing we say that is a command to the terminal.
var patch = regexp.MustCompile("\x1b\\[48;2;\\d{1,3};\\d{1,3};\\d{1,3}m {6}\x1b\\[0m")

// harmless leaves out what a terminal takes for a command and what turns the
// direction of the words after it: anybody may write these into a log.
func harmless(s string) string {
	var b strings.Builder
	from := 0
	for _, at := range patch.FindAllStringIndex(s, -1) {
		b.WriteString(words(s[from:at[0]]) + s[at[0]:at[1]])
		from = at[1]
	}
	return b.String() + words(s[from:])
}

func words(s string) string {
	return strings.Map(func(r rune) rune {
		if r != '\n' && r != '\t' && unicode.IsControl(r) || '\u202a' <= r && r <= '\u202e' || '\u2066' <= r && r <= '\u2069' {
			return -1
		}
		return r
	}, s)
}

// complainAll says every one of them.
func (a *app) complainAll(ps tiles.Problems) {
	if len(ps) > 0 {
		a.complain(ps)
	}
}

// hintCopies says which second versions of files were left out.
func (a *app) hintCopies() {
	for _, p := range run.Copies(a.folder()) {
		a.hint("%s", p.Error())
	}
}

// bars shows what a verb tells as a bar for each stretch of its work that may
// take more than a second; on a terminal only, and gone when the work is done.
func (a *app) bars() run.Tell {
	w := io.Discard
	if isTerminal(a.err) && !a.json {
		w = a.err
	}
	var bar *progressbar.ProgressBar
	return func(e run.Event) {
		if e.Done == 0 {
			bar = progressbar.NewOptions(e.Total,
				progressbar.OptionSetWriter(w),
				progressbar.OptionSetDescription(e.What),
				progressbar.OptionShowCount(),
				progressbar.OptionThrottle(time.Second),
				progressbar.OptionClearOnFinish(),
			)
		}
		_ = bar.Set(e.Done)
	}
}

// isTerminal says whether a person watches the stream: color and bars only there.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
