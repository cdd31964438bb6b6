package record

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"time"

	"github.com/twodip/twodip/tiles"
)

// A date as people and spreadsheets write it; what follows it (the time a form
// was sent) is not kept.
var (
	yearFirst = regexp.MustCompile(`^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ].*)?$`)
	yearLast  = regexp.MustCompile(`^(\d{1,2})[-/.] ?(\d{1,2})[-/.] ?(\d{4})(?:[T, ].*)?$`)
)

// parseDate reads a date into "2006-01-02". One with the year last must say by
// its figures which is the day, or the studio must have said its order.
func parseDate(cell string, order tiles.DateOrder) (string, error) {
	if m := yearFirst.FindStringSubmatch(cell); m != nil {
		return isoDate(m[1], m[2], m[3], cell)
	}
	m := yearLast.FindStringSubmatch(cell)
	if cell == "" {
		return "", errors.New("is empty: write the day, like 2026-03-14")
	}
	if m == nil {
		return "", fmt.Errorf("%q is not a date: write 2026-03-14", cell)
	}
	one, _ := strconv.Atoi(m[1])
	two, _ := strconv.Atoi(m[2])
	switch {
	case order == tiles.DayFirst || order == "" && one > 12 || one == two:
		return isoDate(m[3], m[2], m[1], cell)
	case order == tiles.MonthFirst || order == "" && two > 12:
		return isoDate(m[3], m[1], m[2], cell)
	}
	return "", fmt.Errorf("%q can be read two ways: write %s-%02d-%02d or %s-%02d-%02d, or say “dates: day first” or “month first” under log: in wall.yaml",
		cell, m[3], one, two, m[3], two, one)
}

var errDate = errors.New("there is no such day")

func isoDate(year, month, day, cell string) (string, error) {
	d, err := time.Parse("2006-1-2", year+"-"+month+"-"+day)
	if err != nil {
		return "", fmt.Errorf("%q: %w", cell, errDate)
	}
	return d.Format(time.DateOnly), nil
}
