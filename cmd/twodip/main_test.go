package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// programs are what a script may run; a system's own tests add to them.
var programs = map[string]func(){"twodip": main}

// TestMain lets a script run this very program as "twodip".
func TestMain(m *testing.M) { testscript.Main(tidied{m}, programs) }

// forAllTests is a folder for what is made once and read by several tests.
var forAllTests string

// tidied runs the tests and clears that folder away.
type tidied struct{ *testing.M }

func (m tidied) Run() int {
	var err error
	if forAllTests, err = os.MkdirTemp("", "twodip-tests"); err != nil {
		panic(err)
	}
	defer os.RemoveAll(forAllTests)
	return m.M.Run()
}

// TestScript runs every session under testdata/script as a user would type it.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:             "testdata/script",
		UpdateScripts:   os.Getenv("TWODIP_UPDATE") != "",
		ContinueOnError: true,
	})
}
