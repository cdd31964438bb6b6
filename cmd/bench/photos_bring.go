package bench

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/run"
)

// mostPhotos is how many files are taken at once.
const mostPhotos = 500

// bringPhotos puts what is sent among the wall's photos, file by file as they
// come, and begins to read them. What is no photograph is refused by its name;
// the others stay.
func (b *Bench) bringPhotos(a *asked) (string, error) {
	parts, err := a.MultipartReader()
	if err != nil {
		return "", tiles.Problem{File: "the photographs", What: "nothing was sent", Do: "choose some files, or drop them on the page"}
	}
	var brought, refused []string
	known := 0
	for n := 0; ; {
		part, end := parts.NextPart()
		if end != nil {
			if !errors.Is(end, io.EOF) {
				err = end
			}
			break
		}
		if part.FileName() == "" {
			continue
		}
		if n++; n > mostPhotos {
			refused = append(refused, fmt.Sprintf("more than %d files came at once: the rest was not taken; send them again", mostPhotos))
			break
		}
		got, wrong := run.BringPhoto(a.dir, part.FileName(), part)
		switch {
		case stopsSending(wrong):
			err = wrong
		case wrong != nil:
			refused = append(refused, sentences(wrong)...)
			continue
		case got.Known:
			known++
			continue
		}
		if err != nil {
			break
		}
		brought = append(brought, got.Photo)
	}
	b.reading.refuse(a.dir, refused)
	if len(brought) > 0 {
		err = errors.Join(err, b.readPhotos(a.dir, brought))
	}
	if err != nil && !errors.Is(err, errBusy) {
		return "", err
	}
	if a.Header.Get("Sec-Fetch-Dest") == "empty" { // the page's script shows it all itself
		return "/photographs", nil
	}
	return b.notes.leave("/photographs", note{Said: append(sayBrought(len(brought), known, err), b.reading.takeRefused(a.dir)...)}), nil
}

// stopsSending says that an error is of the sending, or of the disk, and not of
// one file.
func stopsSending(err error) bool {
	var p tiles.Problem
	var large *http.MaxBytesError
	return err != nil && (errors.As(err, &large) || !errors.As(err, &p))
}

func sayBrought(brought, known int, busy error) []string {
	var said []string
	if brought > 0 {
		said = append(said, english.Count(brought, "photograph was", "photographs were")+" brought into tiles/photos.")
	}
	if known > 0 {
		said = append(said, english.Count(known, "photograph is", "photographs are")+" here already.")
	}
	if busy != nil {
		said = append(said, "The bench is at work on something else: when that is done, read the new photographs.")
	}
	return said
}

// refusedPhotos tells the page's script what was refused.
func (b *Bench) refusedPhotos(a *asked) error {
	a.w.Header().Set("Content-Type", "application/json")
	return json.NewEncoder(a.w).Encode(b.reading.takeRefused(a.dir))
}

// readNew reads every photo that is new or changed.
func (b *Bench) readNew(a *asked) (string, error) {
	return "/photographs", b.readPhotos(a.dir, []string{everything})
}
