package run

import (
	"fmt"
	"slices"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// Forgotten is what forget touched.
type Forgotten struct {
	Pieces   []string `json:"pieces"`   // of the log, now without a maker
	Versions []string `json:"versions"` // kept versions of the log in which the maker stood
	Photos   []string `json:"photos"`   // of that maker's raw pieces, removed
	Notes    []string `json:"notes"`    // pieces whose note holds the word: a person reads those
}

// Forget blanks a maker in the log and in every kept version of it, and removes
// the photos of that maker's raw pieces. The rows stay: what was glazed, and how
// it came out, tells nobody's name.
func Forget(dir folder.Folder, maker string) (Forgotten, error) {
	var did Forgotten
	if tiles.Fold(maker) == "" {
		return did, tiles.Problem{File: record.LogFile, What: "no maker is named", Do: "write the initials or the name as they stand in the log"}
	}
	letGo, err := Hold(dir)
	if err != nil {
		return did, err
	}
	defer letGo()
	s, err := content.ReadSettings(dir)
	if err != nil {
		return did, err
	}
	versions, err := earlier.List(dir)
	if err != nil {
		return did, err
	}
	if err := did.log(dir, s, maker); err != nil {
		return did, err
	}
	for _, v := range earlier.Of(versions, record.LogFile) {
		if err := did.version(dir, s, v, maker); err != nil {
			return did, err
		}
	}
	return did, did.photos(dir)
}

func (did *Forgotten) log(dir folder.Folder, s tiles.Settings, maker string) error {
	text, _, err := Look(dir, record.LogFile)
	if err != nil || text == nil {
		return err
	}
	out, pieces, err := record.BlankMaker(text, s.Log, maker)
	if err != nil {
		return err
	}
	did.Pieces = pieces
	if did.Notes, err = record.NotesNaming(out, s.Log, maker); err != nil || len(pieces) == 0 {
		return err
	}
	return dir.WriteBytes(record.LogFile, out)
}

// version blanks a kept version. One that cannot be read as a log goes: nobody
// can tell whom it names.
func (did *Forgotten) version(dir folder.Folder, s tiles.Settings, v earlier.Version, maker string) error {
	data, err := v.Read(dir)
	var out []byte
	var pieces []string
	if err == nil {
		out, pieces, err = record.BlankMaker(data, s.Log, maker)
	}
	switch {
	case err != nil:
		did.Versions = append(did.Versions, v.Saved)
		return dir.Remove(v.Saved)
	case len(pieces) == 0:
		return nil
	}
	for _, p := range pieces {
		if !slices.Contains(did.Pieces, p) {
			did.Pieces = append(did.Pieces, p)
		}
	}
	did.Versions = append(did.Versions, v.Saved)
	return earlier.Rewrite(dir, v, out)
}

func (did *Forgotten) photos(dir folder.Folder) error {
	for _, p := range did.Pieces {
		if name, ok := PiecePhoto(dir, p); ok {
			if err := dir.Remove(name); err != nil {
				return err
			}
			did.Photos = append(did.Photos, name)
		}
	}
	return nil
}

// Say says what was touched, a sentence each.
func (did Forgotten) Say() []string {
	if len(did.Pieces)+len(did.Versions) == 0 {
		return []string{"No piece of the log, and none of its kept versions, names that maker."}
	}
	said := []string{fmt.Sprintf("%s in %s: the maker is blank.", english.Count(len(did.Pieces), "piece", "pieces"), record.LogFile)}
	if n := len(did.Versions); n > 0 {
		said = append(said, fmt.Sprintf("%s of the log in earlier/: the maker is blank there too.", english.Count(n, "kept version", "kept versions")))
	}
	if n := len(did.Photos); n > 0 {
		said = append(said, english.Count(n, "photo", "photos")+" of raw pieces removed from "+PiecePhotos+".")
	}
	if len(did.Notes) > 0 {
		said = append(said, "The word stands in the note of "+english.And(english.First(10, did.Notes))+": read those yourself.")
	}
	return append(said, "Copies outside this folder (a backup, a sent file, paper) are not touched.")
}
