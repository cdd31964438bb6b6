// Package logbook reads a studio's glazing log and its bucket record the way a
// kind person does, and says what it read another way than it stands there. It
// knows the faults by the trade's words, looks at the pieces that wait for
// their firing, and counts what was seen on each pair. It compares nothing:
// that is for package trace.
package logbook

import (
	"iter"

	"github.com/twodip/twodip/tiles"
)

// Log is the pieces of a glazing log, which may be gone through more than
// once, so that it need not be held in memory.
type Log = iter.Seq[tiles.Piece]
