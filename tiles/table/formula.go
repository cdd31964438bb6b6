package table

import (
	"regexp"
	"strings"
)

// A spreadsheet runs a cell that begins with = + - or @ (or their full-width
// forms, or one of them after a tab, a line end or spaces) as a formula. It
// may also cut a cell at a comma or semicolon when it guesses the separator
// wrong, so what follows one inside a cell counts as a beginning too.
//
// The cure is the one spreadsheets use themselves: an apostrophe before it.
// Guard adds one apostrophe at every such beginning, also where apostrophes
// already stand before it; Unguard takes one away. So Unguard(Guard(s)) == s
// for every s. A plain number ("-14.2") is no formula and stays as it is.
var (
	begins  = regexp.MustCompile(`(^|[,;\t\r\n])('* *[=+@＝＋－＠-])`)
	guarded = regexp.MustCompile(`(^|[,;\t\r\n])'('* *[=+@＝＋－＠-])`)
	remark  = regexp.MustCompile(`^'*#(\s|$)`) // a value that would read as a remark
	number  = regexp.MustCompile(`^[+-]?\d+([.,]\d+)?$`)
)

// Guard makes a value safe to stand in a cell.
func Guard(value string) string {
	if remark.MatchString(value) {
		value = "'" + value
	}
	return guardFormula(value)
}

func guardFormula(value string) string {
	if number.MatchString(value) {
		return value
	}
	return begins.ReplaceAllString(value, "$1'$2")
}

// Unguard gives back the value that Guard made safe.
func Unguard(cell string) string {
	if !strings.Contains(cell, "'") {
		return cell // nearly all; the patterns are slow
	}
	cell = guarded.ReplaceAllString(cell, "$1$2")
	if strings.HasPrefix(cell, "'") && remark.MatchString(cell) {
		return cell[1:]
	}
	return cell
}
