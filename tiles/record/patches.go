package record

import (
	"errors"
	"fmt"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/table"
)

// mostPatches bounds a chart: the largest in use have some 150.
const mostPatches = 400

// ReadPatches reads the file of a reference's patches, named from the wall's
// folder: a row a patch with its name and CIELAB (D50, 2°), in the order they
// stand on the chart, row by row from the top left. Errors are tiles.Problems.
func ReadPatches(dir folder.Folder, file string) ([]color.Patch, error) {
	var out []color.Patch
	names := map[string]bool{}
	err := eachRow(dir, file, []string{"patch", "l", "a", "b", "neutral"}, nil, []string{"patch", "l", "a", "b"}, func(r cellsOf) error {
		p, err := parsePatch(r)
		switch {
		case err != nil:
			return err
		case names[strings.ToLower(p.Name)]:
			return fmt.Errorf("patch %s is there twice", p.Name)
		case len(out) == mostPatches:
			return fmt.Errorf("there are more than %d patches", mostPatches)
		}
		names[strings.ToLower(p.Name)] = true
		out = append(out, p)
		return nil
	})
	if err == nil && len(out) == 0 {
		err = tiles.Problems{{File: file, What: "it holds no patch", Do: "give a row for each patch: patch,l,a,b"}}
	}
	return out, err
}

func parsePatch(r cellsOf) (p color.Patch, err error) {
	p.Name = r.cell("patch")
	if p.Name == "" {
		return p, errors.New("the patch has no name")
	}
	for _, axis := range []struct {
		name string
		to   *float64
	}{{"l", &p.Lab.L}, {"a", &p.Lab.A}, {"b", &p.Lab.B}} {
		if *axis.to, err = table.Number(r.cell(axis.name)); err != nil {
			return p, fmt.Errorf("%s of patch %s: %q is not a number", axis.name, p.Name, r.cell(axis.name))
		}
	}
	if !p.Lab.Real() {
		return p, fmt.Errorf("patch %s: lab(%g %g %g) is not a color; L* runs 0 to 100, under D50", p.Name, p.Lab.L, p.Lab.A, p.Lab.B)
	}
	switch word := strings.ToLower(r.cell("neutral")); word {
	case "":
		p.Neutral = p.Lab.SeemsNeutral()
	case "yes", "y", "x", "1", "true":
		p.Neutral = true
	case "no", "n", "0", "false":
	default:
		return p, fmt.Errorf("neutral of patch %s is %q; write yes or no", p.Name, word)
	}
	return p, nil
}
