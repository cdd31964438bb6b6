package bench

import (
	"os"
	"path/filepath"
)

// newPlace is a folder that is not there yet, among the person's documents.
func newPlace() string {
	home, err := os.UserHomeDir()
	if err != nil {
		return ""
	}
	if info, err := os.Stat(filepath.Join(home, "Documents")); err == nil && info.IsDir() {
		home = filepath.Join(home, "Documents")
	}
	return filepath.Join(home, "test-tile wall")
}
