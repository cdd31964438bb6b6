package produce

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"github.com/twodip/twodip/build/sheet"
	"github.com/twodip/twodip/build/site"
	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// Check reads everything, says what is wrong, and writes nothing.
func Check(dir folder.Folder) (run.Checked, error) {
	return run.Check(dir, func(r run.Records) ([]string, tiles.Problems) {
		notes, ps := paper(dir, r.Wall)
		return append(notes, site.Shown(r.Wall, r.Loads)...), ps
	})
}

// paper looks at what print would trip over: the label sheet, the font, and
// letters that cannot be printed, which it returns as notes.
func paper(dir folder.Folder, w tiles.Wall) (notes []string, _ tiles.Problems) {
	var ps run.Problems
	_, err := sheet.FindLabelSheet(w.Settings)
	ps.Add(err)
	font, err := labelFont(dir, w.Labels.Font)
	ps.Add(err)
	if err != nil {
		return nil, ps.Found
	}
	lacks, err := sheet.Lacks(w.Glazes, font)
	ps.Add(err)
	for _, l := range lacks {
		notes = append(notes, unprintable(glazeList(dir), l).Error())
	}
	return notes, ps.Found
}

// unprintable says which letters of a glaze's name will be a box on paper.
func unprintable(list string, l sheet.Lack) tiles.Problem {
	return tiles.Problem{File: list, Line: l.Glaze.Line, What: l.String() + ", so a box is printed", Do: l.Mend()}
}

// glazeList is the wall's glaze list, for what is said about names.
func glazeList(dir folder.Folder) string {
	if !dir.Has(content.GlazesCSV) && dir.Has(content.GlazesYAML) {
		return content.GlazesYAML
	}
	return content.GlazesCSV
}

// mostFont bounds a font file: the largest CJK fonts are about 30 MB.
const mostFont = 64 << 20

// labelFont reads the wall's own font, if it names one.
func labelFont(dir folder.Folder, name string) ([]byte, error) {
	if name == "" {
		return nil, nil
	}
	bad := func(what, do string) error {
		return tiles.Problem{File: content.SettingsFile, What: fmt.Sprintf("labels: font: %s: %s", name, what), Do: do}
	}
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return nil, bad("it lies outside the wall's folder", "put the font into it")
	}
	ttf, err := dir.Read(name, mostFont)
	var ps tiles.Problems
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, bad("it cannot be opened", "check the path, which begins at the wall's folder")
	case errors.As(err, &ps):
		return nil, bad("it "+ps[0].What, "give another font")
	case err != nil:
		return nil, err
	}
	if err := sheet.CheckFont(ttf); err != nil {
		return nil, bad(err.Error(), "")
	}
	return ttf, nil
}
