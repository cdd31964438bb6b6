package folder

import (
	"path"
	"regexp"
	"strings"
)

// Copy is a file that looks like a second version of another.
type Copy struct{ File, Of string }

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

// Copies finds the second versions of a file that a wall has once.
func (f Folder) Copies(of string) []Copy { return f.marked(of, copyMark) }

// PageCopies finds them among the pages, which would be published twice.
func (f Folder) PageCopies() []Copy {
	var all []Copy
	names, _ := f.Names("content") // what cannot be read is said where it is read
	for _, name := range names {
		if strings.EqualFold(path.Ext(name), ".md") {
			all = append(all, f.marked("content/"+name, pageMark)...)
		}
	}
	return all
}

// marked finds the files beside a file whose names are its own with a mark.
func (f Folder) marked(file string, mark *regexp.Regexp) []Copy {
	var all []Copy
	sub, ext := path.Dir(file), path.Ext(file)
	stem := strings.TrimSuffix(path.Base(file), ext)
	names, _ := f.Names(sub)
	for _, name := range names {
		if len(name) <= len(stem+ext) || !strings.EqualFold(path.Ext(name), ext) {
			continue
		}
		own := name[:len(name)-len(ext)]
		after, before := own[len(stem):], own[:len(own)-len(stem)]
		if strings.EqualFold(own[:len(stem)], stem) && mark.MatchString(after) ||
			strings.EqualFold(own[len(before):], stem) && copyBefore.MatchString(before) {
			all = append(all, Copy{path.Join(sub, name), file})
		}
	}
	return all
}
