package main

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/record"
)

// kept lists the files that a wall has once.
var kept = []string{
	content.SettingsFile, content.GlazesCSV, content.GlazesYAML,
	record.PlanFile, record.MeasuredFile, record.ByHandFile, record.LogFile, record.BatchesFile, record.LoadsFile,
}

// A folder that two computers share keeps both versions of a file that both
// changed, and marks one by a word ("plan (Mo's conflicted copy).csv", "Copy of
// plan.csv"), a number ("plan (1).csv", "plan 2.csv") or a computer's name
// ("plan-STUDIO-PC.csv"). Common practice of such services, no source.
const copyWords = `(?i:confli[ct]|konflikt|конфликт|冲突|衝突|競合|\bcop(?:y|ie|ia)\b|cópia|\bkopi[ea]\b|копия|副本|コピー)`

var (
	copyMark   = regexp.MustCompile(copyWords + `|^ ?\(\d+\)$|^ ?\[\d+\]$|^ \d+$|^-[A-Z0-9]*[A-Z][A-Z0-9]*(-[A-Z0-9]+)*$`)
	copyBefore = regexp.MustCompile(copyWords + `.* $`)
	// A teacher may well have pages called kiln.md and kiln 2.md.
	pageMark = regexp.MustCompile(copyWords + `|^ ?\(\d+\)$`)
)

// copies finds second versions of the wall's files.
func copies(dir string) tiles.Problems {
	var ps tiles.Problems
	for _, file := range kept {
		ps = append(ps, copiesOf(dir, file)...)
	}
	return append(ps, pageCopies(dir)...)
}

func copiesOf(dir, file string) tiles.Problems { return marked(dir, file, copyMark) }

// marked finds the files beside a file whose names are its own with a mark.
func marked(dir, file string, mark *regexp.Regexp) tiles.Problems {
	var ps tiles.Problems
	folder, ext := path.Dir(file), path.Ext(file)
	stem := strings.TrimSuffix(path.Base(file), ext)
	for _, name := range namesIn(dir, folder) {
		if len(name) <= len(stem+ext) || !strings.EqualFold(path.Ext(name), ext) {
			continue
		}
		own := name[:len(name)-len(ext)]
		after, before := own[len(stem):], own[:len(own)-len(stem)]
		if strings.EqualFold(own[:len(stem)], stem) && mark.MatchString(after) ||
			strings.EqualFold(own[len(before):], stem) && copyBefore.MatchString(before) {
			ps = append(ps, copyProblem(path.Join(folder, name), file))
		}
	}
	return ps
}

// pageCopies finds them among the pages, which would be published twice.
func pageCopies(dir string) tiles.Problems {
	var ps tiles.Problems
	for _, name := range namesIn(dir, "content") {
		if strings.EqualFold(path.Ext(name), ".md") {
			ps = append(ps, marked(dir, "content/"+name, pageMark)...)
		}
	}
	return ps
}

// readPages reads the teacher's pages without second versions of any.
func readPages(dir string) ([]content.Page, error) {
	pages, err := content.ReadPages(dir)
	twice := pageCopies(dir)
	return slices.DeleteFunc(pages, func(p content.Page) bool {
		return slices.ContainsFunc(twice, func(copy tiles.Problem) bool { return copy.File == p.File })
	}), err
}

func copyProblem(file, of string) tiles.Problem {
	p := tiles.Problem{File: file, What: "looks like a second version of " + of + ", as a shared folder leaves it when two computers change one file",
		Do: "compare the two, keep what is right in " + path.Base(of) + ", and move this one out of the wall"}
	if of == record.LogFile {
		p.Do = "take its rows in with: twodip log " + quoteArg(file) + "; then move it out of the wall"
	}
	return p
}

// hintCopies says which second versions a command that goes on leaves out.
func (a *app) hintCopies() {
	for _, p := range copies(a.wall) {
		a.hint("%s", p.Error())
	}
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
