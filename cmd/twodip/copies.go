package main

import (
	"path"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// kept lists the files that a wall has once.
var kept = []string{
	content.SettingsFile, content.GlazesCSV, content.GlazesYAML,
	record.PlanFile, record.MeasuredFile, record.ByHandFile, record.LogFile, record.BatchesFile, record.LoadsFile,
}

// copies finds second versions of the wall's files.
func copies(dir folder.Folder) tiles.Problems {
	var ps tiles.Problems
	for _, file := range kept {
		ps = append(ps, copiesOf(dir, file)...)
	}
	return append(ps, copyProblems(dir.PageCopies())...)
}

func copiesOf(dir folder.Folder, file string) tiles.Problems { return copyProblems(dir.Copies(file)) }

func copyProblems(all []folder.Copy) tiles.Problems {
	var ps tiles.Problems
	for _, one := range all {
		ps = append(ps, copyProblem(one.File, one.Of))
	}
	return ps
}

func copyProblem(file, of string) tiles.Problem {
	p := tiles.Problem{File: file, What: "looks like a second version of " + of + ", as a shared folder leaves it when two computers change one file",
		Do: "compare the two, keep what is right in " + path.Base(of) + ", and move this one out of the wall"}
	if of == record.LogFile {
		p.Do = "take its rows in with: twodip log " + folder.Typed(file) + "; then move it out of the wall"
	}
	return p
}

// hintCopies says which second versions a command that goes on leaves out.
func (a *app) hintCopies() {
	for _, p := range copies(a.folder()) {
		a.hint("%s", p.Error())
	}
}
