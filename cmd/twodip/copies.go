package main

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/record"
)

// kept lists the files that a wall has once.
var kept = []string{
	content.SettingsFile, content.GlazesCSV, content.GlazesYAML,
	record.PlanFile, record.MeasuredFile, "tiles/log.csv", "tiles/batches.csv", "tiles/loads.csv",
}

// A folder that two computers share keeps both versions of a file that both
// changed: "plan (1).csv", "plan (Mo's conflicted copy).csv",
// "plan.sync-conflict-20260102.csv", "plan-STUDIO-PC.csv". Common practice of
// such services, no source.
var copyMark = regexp.MustCompile(`(?i:conflict|\bcopy\b)|^ ?\(\d+\)$|^ ?\[\d+\]$|^ \d+$|^-[A-Z0-9]+(-[A-Z0-9]+)*$`)

// copies finds second versions of the wall's files.
func copies(dir string) tiles.Problems {
	var ps tiles.Problems
	for _, file := range kept {
		ps = append(ps, copiesOf(dir, file)...)
	}
	return append(ps, pageCopies(dir)...)
}

func copiesOf(dir, file string) tiles.Problems {
	var ps tiles.Problems
	folder, ext := path.Dir(file), path.Ext(file)
	stem := strings.TrimSuffix(path.Base(file), ext)
	for _, name := range namesIn(dir, folder) {
		middle, isKin := strings.CutPrefix(strings.TrimSuffix(name, ext), stem)
		if isKin && strings.HasSuffix(name, ext) && middle != "" && copyMark.MatchString(middle) {
			ps = append(ps, copyProblem(path.Join(folder, name), file))
		}
	}
	return ps
}

// pageCopies finds them among the pages, which would be published twice.
func pageCopies(dir string) tiles.Problems {
	var ps tiles.Problems
	for _, name := range namesIn(dir, "content") {
		if stem, isPage := strings.CutSuffix(name, ".md"); isPage {
			ps = append(ps, copiesOf(dir, "content/"+stem+".md")...)
		}
	}
	return ps
}

func copyProblem(file, of string) tiles.Problem {
	return tiles.Problem{File: file, What: "looks like a second version of " + of + ", as a shared folder leaves it when two computers change one file",
		Do: "compare the two, keep what is right in " + path.Base(of) + ", and move this one out of the wall"}
}

func namesIn(dir, folder string) []string {
	entries, err := os.ReadDir(filepath.Join(dir, filepath.FromSlash(folder)))
	if err != nil {
		return nil // what cannot be read is said where it is read
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}
