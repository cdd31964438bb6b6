package target

import (
	"fmt"

	qr "github.com/piglig/go-qr"
)

// QRQuiet is the white margin a QR code needs on every side, in modules
// (ISO/IEC 18004).
const QRQuiet = 4

// QR is a QR code: square, of dark and light modules.
type QR struct{ code *qr.QrCode }

// Modules is how many modules the code has across, quiet zone not included.
func (c QR) Modules() int { return c.code.Size() }

// Dark says whether the module in a column and a row is inked; none is outside.
func (c QR) Dark(x, y int) bool { return c.code.Module(x, y) }

// QRLevel is a level of error correction, least first.
type QRLevel int

// The levels of ISO/IEC 18004: about 7, 15, 25 and 30 % of the code may be soiled.
const (
	LevelL = QRLevel(qr.Low)
	LevelM = QRLevel(qr.Medium)
	LevelQ = QRLevel(qr.Quartile)
	LevelH = QRLevel(qr.High)
)

// NewQR encodes a payload in as few modules as it takes, and in those with as
// much error correction as they leave, level L at least. In a photo of the mat
// large modules are worth more than redundancy. An address stays as it is
// written: some phones do not open "HTTPS://".
func NewQR(payload string) (QR, error) {
	c, err := qr.EncodeText(payload, qr.Low)
	if err != nil {
		return QR{}, fmt.Errorf("a QR code cannot hold %q: %w", payload, err)
	}
	return QR{c}, nil
}

// QRFormat is how a payload is made a code: what a code says beside it.
type QRFormat struct {
	Modules int // across: 21, 25, 29 …
	Level   QRLevel
	Mask    int // 0–7
}

// QRLike encodes a payload in a given format; one that it does not fit in is
// an error.
func QRLike(payload string, f QRFormat) (QR, error) {
	parts, err := qr.MakeSegments(payload)
	if err != nil {
		return QR{}, err
	}
	version := (f.Modules - 17) / 4
	c, err := qr.EncodeSegments(parts, qr.Ecc(f.Level), version, version, f.Mask, false)
	return QR{c}, err
}
