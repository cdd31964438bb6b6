package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	return string(text)
}

// TestReadmeNamesEveryLicence: whatever is linked into the binary, on any of
// the systems a release is built for, is named with its licence.
func TestReadmeNamesEveryLicence(t *testing.T) {
	text := readme(t)
	for _, system := range []string{"linux", "darwin", "windows"} {
		cmd := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{.Path}}{{end}}", ".")
		cmd.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := cmd.Output()
		require.NoError(t, err, "go list for %s", system)
		for _, path := range strings.Fields(string(out)) {
			if !strings.HasPrefix(path+"/", module) {
				assert.True(t, strings.Contains(text, path), "%s, linked on %s, is not named", path, system)
			}
		}
	}
}

// TestReadmeNamesEveryCommand: the table of commands is the program's.
func TestReadmeNamesEveryCommand(t *testing.T) {
	text := readme(t)
	for _, command := range (&app{}).root().Commands() {
		if !command.Hidden && command.Name() != "help" && command.Name() != "completion" {
			assert.True(t, strings.Contains(text, "| `"+command.Name()), "command %s is not in the table", command.Name())
		}
	}
}

// TestReadmePicturesAreThere: every picture shown is in the repository.
func TestReadmePicturesAreThere(t *testing.T) {
	for _, part := range strings.Split(readme(t), "](")[1:] {
		target, _, _ := strings.Cut(part, ")")
		if !strings.Contains(target, "://") {
			assert.FileExists(t, filepath.Join("..", "..", filepath.FromSlash(target)))
		}
	}
}
