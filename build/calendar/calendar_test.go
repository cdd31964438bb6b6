package calendar_test

import (
	"bytes"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/calendar"
	"github.com/twodip/twodip/tiles/plan"
)

// The file is read back by another library than the one that wrote it: every
// stage is an event of whole days, each beginning where the one before ends,
// commas, semicolons and line breaks kept.
func TestAnotherProgramReadsTheCalendar(t *testing.T) {
	stages := []plan.Stage{
		{What: "Make the tiles; all", Who: "students", Minutes: 90, Days: 2, Says: "12 tiles, 2 spares\nand a second line, long enough to be folded by RFC 5545 at seventy-five octets: ÄÖÜ → żółty"},
		{What: "Dry", Days: 7, Says: "slowly"},
	}
	from := time.Date(2026, 3, 30, 15, 0, 0, 0, time.UTC)
	var b, again bytes.Buffer
	require.NoError(t, calendar.Write(&b, "Tern Lane, Studio", stages, from))
	require.NoError(t, calendar.Write(&again, "Tern Lane, Studio", stages, from))
	require.Equal(t, b.String(), again.String())
	c, err := ical.NewDecoder(&b).Decode()
	require.NoError(t, err)
	events := c.Events()
	require.Len(t, events, 2)
	day := time.Date(2026, 3, 30, 0, 0, 0, 0, time.UTC)
	for i, e := range events {
		start, err := e.DateTimeStart(time.UTC)
		require.NoError(t, err)
		end, err := e.DateTimeEnd(time.UTC)
		require.NoError(t, err)
		require.Equal(t, day, start)
		day = day.AddDate(0, 0, stages[i].Days)
		require.Equal(t, day, end)
		summary, err := e.Props.Text(ical.PropSummary)
		require.NoError(t, err)
		require.Equal(t, stages[i].What, summary)
		said, err := e.Props.Text(ical.PropDescription)
		require.NoError(t, err)
		require.Equal(t, calendar.Words(stages[i]), said)
	}
}
