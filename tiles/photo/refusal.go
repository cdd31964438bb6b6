package photo

import "fmt"

// Refusal is why a picture cannot be used, said to the person who took it:
// what is wrong, and what to do.
type Refusal struct {
	What string // lower case, no full stop
	Do   string // imperative, no full stop; "" = What says it
}

// Error is the refusal in one line.
func (r Refusal) Error() string {
	if r.Do == "" {
		return r.What
	}
	return r.What + "; " + r.Do
}

func refuse(do, format string, args ...any) error {
	return Refusal{What: fmt.Sprintf(format, args...), Do: do}
}

// What to do, where several refusals give the same advice.
const (
	doCopy   = "copy it from the camera again"
	doExport = "export it as an sRGB JPEG and use that"
	doSmall  = "make it smaller, or photograph fewer tiles at once"
)

var errCut = Refusal{What: "the picture is cut short or damaged: a part of its data is missing", Do: doCopy}
