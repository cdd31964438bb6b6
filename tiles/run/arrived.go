package run

import (
	"slices"
	"time"

	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/logbook"
	"github.com/twodip/twodip/tiles/record"
)

// Arrived is a row from a phone that nobody has looked at, with what is odd
// about it.
type Arrived struct {
	record.Arrival
	Odd []string
}

// NotLookedAt lists the rows from phones that nobody has looked at, odd ones
// first, else in the order of the log.
func NotLookedAt(dir folder.Folder, r Records, today time.Time) ([]Arrived, error) {
	rows, err := record.NotLookedAt(dir, r.Wall.Log)
	if err != nil {
		return nil, err
	}
	mixes := logbook.NewMixes(logbook.NewClerk(r.Wall.Glazes).Batches(r.Batches))
	var out []Arrived
	for _, a := range rows {
		out = append(out, Arrived{a, odd(a, mixes, len(r.Batches) > 0, today)})
	}
	slices.SortStableFunc(out, func(a, b Arrived) int { return min(1, len(b.Odd)) - min(1, len(a.Odd)) })
	return out, nil
}

// odd says what a teacher would ask about. A studio that writes no batch down is
// not asked for one.
func odd(a record.Arrival, mixes logbook.Mixes, writesBatches bool, today time.Time) []string {
	var said []string
	p := a.Piece
	day, err := time.Parse(time.DateOnly, p.Date)
	if err != nil || day.After(today) || today.Sub(day) > 400*24*time.Hour {
		said = append(said, "the day “"+p.Date+"” cannot be")
	}
	for _, code := range []string{p.First, p.Second} {
		if code == "" || !writesBatches || code == p.First && code == p.Second && len(said) > 0 {
			continue
		}
		if _, ok := mixes.On(code, p.Date); !ok {
			said = append(said, "no batch of "+code+" is written down for that day")
		}
	}
	if p.Foot == "" {
		said = append(said, "nobody said that the foot is wiped")
	}
	return said
}
