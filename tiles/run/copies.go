package run

import (
	"path"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// once lists the files that a wall has once.
var once = []string{
	content.SettingsFile, content.GlazesCSV, content.GlazesYAML,
	record.PlanFile, record.MeasuredFile, record.ByHandFile, record.LogFile, record.BatchesFile, record.LoadsFile,
}

// Copies says which files look like second versions of the wall's own. They
// are not read, though somebody's work may be in them.
func Copies(dir folder.Folder) tiles.Problems {
	var ps tiles.Problems
	for _, file := range once {
		ps = append(ps, copyProblems(dir.Copies(file))...)
	}
	return append(ps, copyProblems(dir.PageCopies())...)
}

func copyProblems(all []folder.Copy) tiles.Problems {
	var ps tiles.Problems
	for _, c := range all {
		p := tiles.Problem{File: c.File, What: "looks like a second version of " + c.Of + ", as a shared folder leaves it when two computers change one file",
			Do: "compare the two, keep what is right in " + path.Base(c.Of) + ", and move this one out of the wall"}
		if c.Of == record.LogFile {
			p.Do = "take its rows in with: twodip log " + folder.Typed(c.File) + "; then move it out of the wall"
			p.Page = "take its rows in on the page Records, then move it out of the wall"
		}
		ps = append(ps, p)
	}
	return ps
}
