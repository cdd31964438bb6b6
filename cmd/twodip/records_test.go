package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/record"
)

// A new wall's records begin with the headings that their readers know.
func TestStarterRecordsHaveTheReadersHeadings(t *testing.T) {
	files, err := content.Starter()
	require.NoError(t, err)
	for file, columns := range map[string][]string{
		record.LogFile: record.LogColumns, record.BatchesFile: record.BatchColumns, record.LoadsFile: record.LoadColumns,
	} {
		headings, _, _ := strings.Cut(string(files[file]), "\n")
		require.Equal(t, strings.Join(columns, ","), headings, file)
	}
}
