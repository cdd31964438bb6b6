package main

import (
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

// TestADoubleClickOpensTheBench, and nothing else does unasked.
func TestADoubleClickOpensTheBench(t *testing.T) {
	require.Equal(t, []string{"bench"}, wanted(nil, true))
	require.Empty(t, wanted(nil, false))
	require.Equal(t, []string{"plan"}, wanted([]string{"plan"}, true))
	require.False(t, clicked())
	require.Empty(t, cobra.MousetrapHelpText)
}
