package tiles

import (
	"fmt"
	"net/url"
	"path"
	"strconv"
	"strings"
)

// Number is a tile's name: given once, never reused, never changed. 1 and up.
type Number int

// MaxNumber bounds a number read from a file or a photo name: five digits fit
// on a tile's back and are more than any wall holds.
const MaxNumber Number = 99999

// String is the number as it is written on the tile: no leading zeros.
func (n Number) String() string { return strconv.Itoa(int(n)) }

// ParseNumber reads a number as people write it ("7", "007", "T7", "t-7").
func ParseNumber(s string) (Number, error) {
	digits := strings.TrimLeft(strings.TrimSpace(s), "tT")
	digits = strings.TrimLeft(digits, "- ")
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 || Number(n) > MaxNumber {
		return 0, fmt.Errorf("%q is not a tile number (1 to %d)", s, MaxNumber)
	}
	return Number(n), nil
}

// NumberFromPhoto reads the tile's number from the start of a photo's file
// name: "7.jpg", "007 back.heic", "T7-b.png". The number ends where the digits
// do; a name that starts otherwise ("IMG_0007.jpg") names no tile.
func NumberFromPhoto(name string) (Number, bool) {
	base := path.Base(strings.ReplaceAll(name, `\`, "/"))
	rest := strings.TrimLeft(base, "tT")
	if len(base)-len(rest) > 1 {
		return 0, false
	}
	end := 0
	for end < len(rest) && rest[end] >= '0' && rest[end] <= '9' {
		end++
	}
	if end < len(rest) && isLetter(rest[end]) {
		return 0, false
	}
	n, err := ParseNumber(rest[:end])
	return n, err == nil
}

func isLetter(b byte) bool { return 'a' <= b|0x20 && b|0x20 <= 'z' }

// PagePath is the path of the tile's page below the site's address.
func (n Number) PagePath() string { return "tile/" + n.String() + ".html" }

// Payload is what the QR code on the tile's label says: the address of the
// tile's page, or "TILE 7" where the wall has no address.
func (n Number) Payload(address string) string {
	if address == "" {
		return "TILE " + n.String()
	}
	return strings.TrimRight(address, "/") + "/" + n.PagePath()
}

// NumberFromPayload reads back what Payload wrote, whatever the address.
func NumberFromPayload(s string) (Number, bool) {
	if rest, ok := strings.CutPrefix(s, "TILE "); ok {
		n, err := ParseNumber(rest)
		return n, err == nil
	}
	u, err := url.Parse(s)
	if err != nil || u.Host == "" {
		return 0, false
	}
	dir, file := path.Split(u.Path)
	if path.Base(dir) != "tile" || path.Ext(file) != ".html" {
		return 0, false
	}
	n, err := ParseNumber(strings.TrimSuffix(file, ".html"))
	return n, err == nil
}
