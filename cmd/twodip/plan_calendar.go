package main

import (
	"bytes"
	"fmt"
	"io"
	"time"

	"github.com/twodip/twodip/build/calendar"
	"github.com/twodip/twodip/tiles/plan"
	"github.com/twodip/twodip/tiles/run"
)

// calendarFile is where the plan's calendar is written.
const calendarFile = "build/calendar.ics"

// stageJSON is one stage as --json says it.
type stageJSON struct {
	What    string  `json:"what"`
	Who     string  `json:"who"`
	Minutes float64 `json:"minutes"`
	Days    int     `json:"days"`
	Starts  string  `json:"starts"`
	Says    string  `json:"says"`
}

// calendar lists the work from clay to wall with its days, and writes it as a
// calendar. It changes nothing of the plan.
func (a *app) calendar(f planFlags) error {
	from := time.Now()
	if f.from != "" {
		day, err := time.Parse("2006-01-02", f.from)
		if err != nil {
			return usageError{fmt.Errorf("--from %q is not a date; write it like 2026-03-14", f.from)}
		}
		from = day
	}
	p, err := run.LookAtPlan(a.folder(), f.wish)
	if err != nil {
		return err
	}
	stages := plan.Stages(p.Wall)
	if len(stages) == 0 {
		return a.done([]stageJSON{}, "nothing is left to make", "twodip measure")
	}
	var file bytes.Buffer
	if err := calendar.Write(&file, p.Wall.Name, stages, from); err != nil {
		return err
	}
	if err := a.folder().Write(calendarFile, func(w io.Writer) error { _, err := file.WriteTo(w); return err }); err != nil {
		return err
	}
	said := a.sayStages(stages, from)
	return a.done(said, run.WholeWords(stages)+": written to "+calendarFile, "open it in a calendar; twodip plan --calendar --from 2026-03-14 begins on that day")
}

// sayStages says every stage with the day it begins.
func (a *app) sayStages(stages []plan.Stage, day time.Time) []stageJSON {
	var said []stageJSON
	for _, s := range stages {
		starts := day.Format("2006-01-02")
		a.step("%s  %5.1f h  %2d d  %-36s %s", starts, s.Minutes/60, s.Days, s.What, s.Who)
		said = append(said, stageJSON{s.What, s.Who, s.Minutes, s.Days, starts, s.Says})
		day = day.AddDate(0, 0, s.Days)
	}
	return said
}
