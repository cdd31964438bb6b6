package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// programs are what a script may run; a system's own tests add to them.
var programs = map[string]func(){"twodip": main}

// TestMain lets a script run this very program as "twodip".
func TestMain(m *testing.M) {
	testscript.Main(m, programs)
}

// TestScript runs every session under testdata/script as a user would type it.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:             "testdata/script",
		UpdateScripts:   os.Getenv("TWODIP_UPDATE") != "",
		ContinueOnError: true,
	})
}
