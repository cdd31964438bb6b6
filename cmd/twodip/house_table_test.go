package main

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// houseRow is the last cell of a row of a table in DEVELOPERS.md: what is named
// in it, and all that it says.
type houseRow struct {
	names []string
	words string
}

// allows says whether the row names a package, or all below a folder of it.
func (r houseRow) allows(pkg string) bool {
	return r.words == "all" || slices.ContainsFunc(r.names, func(name string) bool {
		folder, all := strings.CutSuffix(name, "…")
		return name == pkg || all && strings.HasPrefix(pkg, folder)
	})
}

var inBackticks = regexp.MustCompile("`([^`]+)`")

// houseTable reads the table of DEVELOPERS.md whose first line begins so: the
// last cell of every row by what the first one names.
func houseTable(t *testing.T, head string) map[string]houseRow {
	t.Helper()
	text, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	_, after, found := strings.Cut(string(text), "\n"+head)
	require.True(t, found, "DEVELOPERS.md has no table that begins %q", head)
	rows := map[string]houseRow{}
	for i, line := range strings.Split(after, "\n") {
		if i < 2 { // the rest of the head, and the rule below it
			continue
		}
		if !strings.HasPrefix(line, "|") {
			break
		}
		cells := strings.Split(strings.Trim(line, "| "), "|")
		names := named(cells[0])
		require.Len(t, names, 1, line)
		require.NotContains(t, rows, names[0], "twice in the table")
		last := strings.TrimSpace(cells[len(cells)-1])
		rows[names[0]] = houseRow{named(last), last}
	}
	require.Greater(t, len(rows), 10, head)
	return rows
}

func named(cell string) (names []string) {
	for _, m := range inBackticks.FindAllStringSubmatch(cell, -1) {
		names = append(names, m[1])
	}
	return names
}

// directRequires are the modules that go.mod requires for our own code.
func directRequires(t *testing.T) (names []string) {
	t.Helper()
	text, err := os.ReadFile("../../go.mod")
	require.NoError(t, err)
	for _, m := range regexp.MustCompile(`(?m)^\s+(\S+?)(?:/v\d+)? v\S+$`).FindAllStringSubmatch(string(text), -1) {
		names = append(names, m[1])
	}
	return names
}
