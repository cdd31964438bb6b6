package run

import (
	"bytes"
	"fmt"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/table/book"
)

// Renamed is what rename did.
type Renamed struct {
	Old  string         `json:"old"`
	New  string         `json:"new"`
	Name string         `json:"name"`  // of the glaze
	Rows map[string]int `json:"rows"`  // changed, by file
	Made []string       `json:"files"` // changed of the list and the settings
}

// Rename gives a glaze another code wherever the old one stands: in the glaze
// list, in wall.yaml and in every record. Numbers, photos and readings stay as
// they are. A run that was stopped in the middle is simply run again. Where the
// new code is in the list already and the old one is not, only the records are
// left to do.
func Rename(dir folder.Folder, old, now string) (Renamed, error) {
	did := Renamed{Old: old, New: now}
	if err := content.CheckCode(now); err != nil {
		return did, err
	}
	if _, err := content.ReadSettings(dir); err != nil {
		return did, err
	}
	c, err := take(dir)
	if err != nil {
		return did, err
	}
	defer c.end()
	if err := did.fit(dir); err != nil {
		return did, err
	}
	if err := c.begin(); err != nil {
		return did, err
	}
	err = did.write(dir)
	return did, err
}

// fit says why the rename cannot be; nothing is written yet.
func (did *Renamed) fit(dir folder.Folder) error {
	if err := did.allowed(dir); err != nil {
		return err
	}
	return did.sound(dir)
}

// write gives the new code to every file that has the old one.
func (did *Renamed) write(dir folder.Folder) error {
	settings, err := content.ReadSettings(dir)
	if err != nil {
		return err
	}
	if err := did.written(dir); err != nil {
		return err
	}
	did.Rows, err = record.Recode(dir, settings.Log, did.Old, did.New)
	if err == nil && len(did.Rows)+len(did.Made) == 0 {
		return noGlaze(did.Old)
	}
	return err
}

func noGlaze(code string) error {
	return tiles.Problem{File: content.GlazesCSV, What: "there is no glaze " + code, Do: "name the code that the list has now, then the new one"}
}

// allowed refuses to make one glaze of two.
func (did *Renamed) allowed(dir folder.Folder) error {
	glazes, err := content.ReadGlazes(dir)
	if err != nil {
		return err
	}
	ts, err := record.ReadTiles(dir)
	if err != nil {
		return err
	}
	was, inList := tiles.FindGlaze(glazes, did.Old)
	is, taken := tiles.FindGlaze(glazes, did.New)
	_, hasOld := firstTileOf(ts, did.Old)
	tile, hasNew := firstTileOf(ts, did.New)
	file := content.GlazesCSV
	did.Name = is.Name
	switch {
	case tiles.SameCode(did.Old, did.New):
		return tiles.Problem{File: file, What: "the code " + did.Old + " is the same whatever its case", Do: "nothing is to be done: only the list need say it the new way"}
	case inList && taken:
		return tiles.Problem{File: file, Line: is.Line, What: fmt.Sprintf("%s is the code of %s", did.New, is.Name), Do: "choose a code that no glaze has"}
	case !inList && !taken:
		return noGlaze(did.Old)
	case hasOld && hasNew:
		return tiles.Problem{File: record.PlanFile, What: fmt.Sprintf("%s is on tiles already, tile %d the first: it was another glaze's code", did.New, tile.Number),
			Do: "choose a code that was never used"}
	}
	if inList {
		did.Name = was.Name
	}
	return nil
}

// sound refuses a wall whose plan was lost or mangled; what a rename left that
// was stopped in the middle is none.
func (did *Renamed) sound(dir folder.Folder) error {
	w, err := loadFiles(dir)
	if err != nil {
		return err
	}
	again := func(p tiles.Pair) tiles.Pair {
		for _, code := range []*string{&p.First, &p.Second} {
			if tiles.SameCode(*code, did.Old) {
				*code = did.New
			}
		}
		return p
	}
	return held(dir, w, again)
}

func firstTileOf(ts []tiles.Tile, code string) (tiles.Tile, bool) {
	for _, t := range ts {
		if t.Has(code) {
			return t, true
		}
	}
	return tiles.Tile{}, false
}

// written rewrites the files that a person types.
func (did *Renamed) written(dir folder.Folder) error {
	for _, file := range []string{content.GlazesCSV, content.GlazesYAML, content.GlazesXLSX, content.GlazesODS, content.SettingsFile} {
		if !dir.Has(file) {
			continue
		}
		if book.Is(file) {
			glazes, err := content.ReadGlazes(dir)
			if g, still := tiles.FindGlaze(glazes, did.Old); err == nil && still {
				return tiles.Problem{File: file, Line: g.Line, What: "is never written by twodip", Do: "type the new code there yourself, save it, then say the same again"}
			}
			continue
		}
		text, err := dir.Read(file, 16<<20)
		if err != nil {
			return err
		}
		after, err := content.Recoded(file, text, did.Old, did.New)
		if err != nil || bytes.Equal(text, after) {
			if err != nil {
				return err
			}
			continue
		}
		if err := dir.WriteBytes(file, after); err != nil {
			return err
		}
		did.Made = append(did.Made, file)
	}
	return nil
}
