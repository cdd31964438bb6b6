package folder

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The names and how they are recognized: Microsoft, Naming Files, Paths, and
// Namespaces.
func TestNamesThatWindowsKeeps(t *testing.T) {
	for _, name := range []string{"con", "CON", "Con.jpg", "aux.tar.gz", "nul .png", "prn", "COM1", "com9.jpg", "LPT9", "lpt¹.jpg", "COM0", "conin$", "CONOUT$.txt"} {
		assert.True(t, IsDevice(name), name)
	}
	for _, name := range []string{"console", "con1", "com", "com10", "lpt", "1 con.jpg", "acon", "nulls.jpg", "", ".con", "conin", "auxiliary"} {
		assert.False(t, IsDevice(name), name)
	}
}
