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

// handful is how many tiles a plan may take out of use unasked.
const handful = 5

// Asks says what a plan would do that a person had better see first: number a
// glaze's tiles anew because its code was typed over, or take more than a handful
// of tiles out of use. It names what caused it, and how to keep the tiles. None is a plan that may
// simply be written.
func (p Planned) Asks(dir folder.Folder) tiles.Problems {
	taken := p.outOfUse()
	var ps tiles.Problems
	if old, now, ok := p.recoded(dir); ok {
		return append(ps, tiles.Problem{File: listFile(dir), Line: now.Line,
			What: fmt.Sprintf("%s had the code %s, on %s; they would be retired, and %s numbered anew", now.Name, old,
				english.Count(len(taken), "tile", "tiles"), english.Count(len(p.Added), "tile", "tiles")),
			Do:   fmt.Sprintf("to keep every number say: twodip rename %s %s; if they are two glazes: twodip plan --yes", old, now.Code),
			Page: fmt.Sprintf("to keep every number, give the glaze its code %s back on the page Glazes and rename it there; if they are two glazes, say yes on the page Plan", old)})
	}
	if len(taken) <= handful {
		return nil
	}
	for _, cause := range causes(taken) {
		of := slices.DeleteFunc(slices.Clone(taken), func(t tiles.Tile) bool { return t.Reason != cause })
		ps = append(ps, tiles.Problem{File: record.PlanFile,
			What: fmt.Sprintf("%s would go out of use, tile %d the first: %s", english.Count(len(of), "tile", "tiles"), of[0].Number, cause),
			Do:   "mend that where it is not meant; if it is: twodip plan --yes",
			Page: "mend that where it is not meant; if it is, say yes on the page Plan"})
	}
	return ps
}

// outOfUse are the tiles that the plan retires or skips now.
func (p Planned) outOfUse() []tiles.Tile {
	var out []tiles.Tile
	for _, c := range p.Changed {
		if c.Tile.Status == tiles.Retired || c.Tile.Status == tiles.Skipped {
			out = append(out, c.Tile)
		}
	}
	return out
}

func causes(ts []tiles.Tile) []string {
	var out []string
	for _, t := range ts {
		if !slices.Contains(out, t.Reason) {
			out = append(out, t.Reason)
		}
	}
	return out
}

// recoded finds a glaze of the list that seems to be one that left it: the last
// list that had the old code gave it the same name.
func (p Planned) recoded(dir folder.Folder) (old string, now tiles.Glaze, ok bool) {
	if len(p.Gone) != 1 || len(p.outOfUse()) == 0 {
		return "", now, false
	}
	was, known := lastListed(dir, p.Gone[0])
	for _, code := range p.Come {
		g := p.Wall.Glaze(code)
		if known && g.Name == was.Name {
			return p.Gone[0], g, true
		}
		if !known && len(p.Come) == 1 {
			return p.Gone[0], g, true
		}
	}
	return "", now, false
}

// lastListed is the glaze as the newest kept list that has its code says it.
func lastListed(dir folder.Folder, code string) (tiles.Glaze, bool) {
	versions, err := earlier.List(dir)
	if err != nil {
		return tiles.Glaze{}, false
	}
	for _, file := range []string{content.GlazesCSV, content.GlazesYAML} {
		for _, v := range earlier.Of(versions, file) {
			if g, ok := listedIn(dir, v, code); ok {
				return g, true
			}
		}
	}
	return tiles.Glaze{}, false
}

func listedIn(dir folder.Folder, v earlier.Version, code string) (tiles.Glaze, bool) {
	return tiles.FindGlaze(listOf(dir, v), code)
}

// lastList is the newest kept glaze list that can be read; none is no glazes.
func lastList(dir folder.Folder, versions []earlier.Version) []tiles.Glaze {
	for _, v := range append(earlier.Of(versions, content.GlazesCSV), earlier.Of(versions, content.GlazesYAML)...) {
		if glazes := listOf(dir, v); len(glazes) > 0 {
			return glazes
		}
	}
	return nil
}

func listOf(dir folder.Folder, v earlier.Version) []tiles.Glaze {
	data, err := v.Read(dir)
	if err != nil {
		return nil
	}
	parse := content.ParseGlazesCSV
	if v.File == content.GlazesYAML {
		parse = content.ParseGlazesYAML
	}
	glazes, err := parse(data)
	if err != nil {
		return nil
	}
	return glazes
}

// listFile is the form that the wall's glaze list has.
func listFile(dir folder.Folder) string {
	for _, file := range []string{content.GlazesYAML, content.GlazesXLSX, content.GlazesODS} {
		if dir.Has(file) {
			return file
		}
	}
	return content.GlazesCSV
}

// recodeRecords puts the new codes into the records where the list says what a
// glaze's code was before.
func recodeRecords(dir folder.Folder, w tiles.Wall) error {
	for _, g := range w.Glazes {
		if _, inUse := tiles.FindGlaze(w.Glazes, g.Was); g.Was == "" || inUse {
			continue
		}
		if _, err := record.Recode(dir, w.Log, g.Was, g.Code); err != nil {
			return err
		}
	}
	return nil
}
