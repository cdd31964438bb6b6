package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestMain lets a script run this very program as "twodip".
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"twodip": main, "twodip-peak": peakMain})
}

// TestScript runs every session under testdata/script as a user would type it.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:             "testdata/script",
		UpdateScripts:   os.Getenv("TWODIP_UPDATE") != "",
		ContinueOnError: true,
	})
}
