package folder

import (
	"regexp"
	"strings"
)

// device is what Windows keeps for devices, in letters of any size, whatever
// follows a stop and however many spaces stand before it (Microsoft, Naming
// Files, Paths, and Namespaces).
var device = regexp.MustCompile(`(?i)^(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])$`)

// IsDevice says that Windows would take a name for a device and open no file:
// a wall made elsewhere is to open there too.
func IsDevice(name string) bool {
	stem, _, _ := strings.Cut(name, ".")
	return device.MatchString(strings.TrimRight(stem, " "))
}
