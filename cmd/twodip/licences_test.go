package main

import (
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a release hands out holds a licence of every module that is linked into
// the program, and what some of them ask for besides.
func TestEveryLicenceIsHandedOut(t *testing.T) {
	out, err := exec.Command("bash", "../../.ci/licences").Output()
	require.NoError(t, err)
	texts := map[string]string{} // by module
	parts := regexp.MustCompile(`(?m)^==== (.*)$`).FindAllStringSubmatchIndex(string(out), -1)
	for i, at := range parts {
		end := len(out)
		if i+1 < len(parts) {
			end = parts[i+1][0]
		}
		name := string(out[at[2]:at[3]])
		module, _, _ := strings.Cut(name, ":")
		texts[module] += name + "\n" + string(out[at[1]:end])
	}
	list, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if .Version}}{{.Path}}{{end}}{{end}}", ".").Output()
	require.NoError(t, err)
	linked := strings.Fields(string(list))
	require.Greater(t, len(linked), 100, "packages of other modules")
	for _, module := range linked {
		assert.Regexp(t, `(?i)permi(t|ssion)|licensed? (to|under)`, texts[module], "no licence of %s", module)
	}
	// The HEIC decoder is libheif and libde265, under the LGPL, which asks for
	// its own text and the GPL's (version 3, 4b).
	for _, library := range []string{"lib/LICENSE.libheif", "lib/LICENSE.libde265"} {
		assert.Contains(t, texts["github.com/gen2brain/heic"], library)
	}
	assert.Contains(t, texts["github.com/gen2brain/heic"], "GNU LESSER GENERAL PUBLIC LICENSE\n                       Version 3")
	assert.Contains(t, texts["github.com/gen2brain/heic"], "GNU GENERAL PUBLIC LICENSE\n                       Version 3")
	for _, module := range []string{"github.com/tetratelabs/wazero", "gopkg.in/yaml.v3"} {
		assert.Contains(t, texts[module], module+": NOTICE", "the Apache License asks for it (2.0, 4d)")
	}
	assert.Contains(t, texts["Go and its library"], "The Go Authors")
}
