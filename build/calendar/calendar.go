// Package calendar writes a plan's work as a calendar that any program opens.
package calendar

import (
	"fmt"
	"io"
	"time"

	ical "github.com/arran4/golang-ical"

	"github.com/twodip/twodip/tiles/plan"
)

// Write writes the stages as all-day events of an iCalendar file (RFC 5545),
// one after the other from the day on. The same stages and day give the same
// bytes: an event's name is its place in the plan, so that a calendar imported
// again moves its events instead of doubling them.
func Write(w io.Writer, wall string, stages []plan.Stage, from time.Time) error {
	c := ical.NewCalendar()
	c.SetMethod(ical.MethodPublish)
	c.SetProductId("-//twodip//" + "wall//EN")
	c.SetXWRCalName(wall)
	day := time.Date(from.Year(), from.Month(), from.Day(), 0, 0, 0, 0, time.UTC)
	for i, s := range stages {
		e := c.AddEvent(fmt.Sprintf("stage-%d@twodip.invalid", i+1))
		e.SetDtStampTime(day)
		e.SetAllDayStartAt(day)
		end := day.AddDate(0, 0, s.Days)
		e.SetAllDayEndAt(end) // the day after the last, as RFC 5545 3.6.1 has it
		e.SetSummary(s.What)
		e.SetDescription(Words(s))
		day = end
	}
	return c.SerializeTo(w)
}

// Words says who does a stage, how long it takes a person and what to mind.
func Words(s plan.Stage) string {
	if s.Minutes == 0 {
		return s.Says
	}
	return fmt.Sprintf("%s, %s in all: %s", s.Who, hours(s.Minutes), s.Says)
}

func hours(minutes float64) string {
	if minutes < 60 {
		return fmt.Sprintf("%.0f minutes", minutes)
	}
	return fmt.Sprintf("%.1f hours", minutes/60)
}
