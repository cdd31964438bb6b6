package content

import (
	"fmt"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"golang.org/x/text/language"

	"github.com/twodip/twodip/tiles"
)

var papers = []string{"letter", "a4"}

// checker gathers what is wrong with the settings.
type checker struct {
	lines    map[string]int
	problems tiles.Problems
}

func (c *checker) fail(path, what, do string) {
	name := strings.ReplaceAll(inList.ReplaceAllStringFunc(path, nthOf), ".", ": ")
	c.problems = append(c.problems, tiles.Problem{File: SettingsFile, Line: c.line(path), What: name + " " + what, Do: do})
}

// inList is one of a list in a path, which people count from 1: "shelves[0]" is
// shelf 1.
var (
	inList   = regexp.MustCompile(`(\w+)\[(\d+)\]`)
	singular = map[string]string{"shelves": "shelf", "rules": "rule", "sheets": "sheet"}
)

func nthOf(path string) string {
	m := inList.FindStringSubmatch(path)
	n, _ := strconv.Atoi(m[2])
	return fmt.Sprintf("%s %d", singular[m[1]], n+1)
}

// line is the line of the path or of the nearest block above it.
func (c *checker) line(path string) int {
	for path != "" {
		if line := c.lines[path]; line > 0 {
			return line
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	return 0
}

// between holds a number to a range. NaN is in no range.
func (c *checker) between(path string, x, low, high float64, unit string) {
	if !(x >= low && x <= high) {
		c.fail(path, fmt.Sprintf("is %g; it must be %g to %g%s", x, low, high, unit), "")
	}
}

func (c *checker) oneOf(path, value string, allowed ...string) {
	if !slices.Contains(allowed, value) {
		c.fail(path, fmt.Sprintf("is %q", value), "write one of "+strings.Join(allowed, ", "))
	}
}

func (c *checker) settings(s tiles.Settings) {
	c.words(s)
	c.oneOf("diagonal", string(s.Diagonal), "single", "double", "both")
	c.tile(s.Tile)
	c.kiln(s.Kiln)
	c.oneOf("paper", s.Paper, papers...)
	c.oneOf("units", string(s.Units), "metric", "us", "both")
	c.labels(s.Labels)
	c.between("read-from", s.Read, 300, 50_000, " mm")
	c.rules(s.Rules)
	c.between("part.glazes", float64(s.Part.Glazes), 0, MaxGlazes, "")
	c.between("part.pairs", float64(s.Part.Pairs), 0, MaxGlazes, "")
	c.dip(s.Dip)
	if s.Clay.Bisque != "" && !conePattern.MatchString(s.Clay.Bisque) {
		c.fail("clay.bisque", fmt.Sprintf("is %q", s.Clay.Bisque), "write it as it stands on the cone, like 04 or 06")
	}
	c.between("clay.density", s.Clay.Density, 1, 4, " kg per litre")
	c.between("clay.waste", s.Clay.Waste, 0, 90, " per cent")
	c.oneOf("retest", string(s.Retest), "single", "all", "none")
	c.photo(s.Photo)
}

var conePattern = regexp.MustCompile(`^0{0,2}\d{1,2}(\.5|½| ?1/2)?( ?[-–/] ?0{0,2}\d{1,2}(\.5|½| ?1/2)?)?$`)

// IsCone says that a cone is written as it stands on cones: 6, 06, 5½, 5-6.
func IsCone(s string) bool { return conePattern.MatchString(s) }

// ConesMeet says that two cones, or ranges of cones, have one in common: 5-6
// and 6 do, 06 and 6 do not. Each is one by IsCone.
func ConesMeet(a, b string) bool {
	lowA, highA := coneRange(a)
	lowB, highB := coneRange(b)
	return lowA <= highB && lowB <= highA
}

// coneRange is the least and the most of a cone in steps of heat, 022 up to 01,
// then 1 up (the numbering of Orton's cones).
func coneRange(s string) (low, high float64) {
	s = strings.NewReplacer("½", ".5", " 1/2", ".5", "1/2", ".5", " ", "", "–", "-", "/", "-").Replace(s)
	first, last, several := strings.Cut(s, "-")
	if !several {
		last = first
	}
	low, high = coneStep(first), coneStep(last)
	return min(low, high), max(low, high)
}

func coneStep(cone string) float64 {
	x, _ := strconv.ParseFloat(cone, 64)
	if strings.HasPrefix(cone, "0") {
		return -x
	}
	return x
}

func (c *checker) words(s tiles.Settings) {
	if s.Name == "" || len([]rune(s.Name)) > 80 {
		c.fail("name", "must have 1 to 80 letters", "")
	}
	if !conePattern.MatchString(s.Cone) {
		c.fail("cone", fmt.Sprintf("is %q", s.Cone), "write it as it stands on the cone: 6, 06, 5½ or 5-6")
	}
	if _, err := language.Parse(s.Language); err != nil {
		c.fail("language", fmt.Sprintf("is %q", s.Language), "write a language tag, like en, es or pt-BR")
	}
	if s.Address != "" && !isAddress(s.Address) {
		c.fail("address", fmt.Sprintf("is %q", s.Address), "write the whole address of the site, like https://glazes.example.org/wall")
	}
}

func isAddress(s string) bool {
	u, err := url.Parse(s)
	return err == nil && (u.Scheme == "https" || u.Scheme == "http") && u.Host != "" &&
		u.RawQuery == "" && u.Fragment == "" && u.User == nil && len(s) <= 200 && !strings.ContainsAny(s, " \t\n")
}

func (c *checker) tile(t tiles.Shape) {
	c.between("tile.width", t.Width, 10, 500, " mm")
	c.between("tile.height", t.Height, 10, 500, " mm")
	c.between("tile.thickness", t.Thickness, 1, 50, " mm")
	c.between("tile.foot", t.Foot, 0, 200, " mm")
	c.between("tile.bare", t.Bare, 0, t.Height/2, " mm (half the tile)")
	c.between("tile.shrinkage", t.Shrinkage, 0, 30, " per cent")
	c.between("tile.hole", t.Hole, 0, min(t.Width, t.Height)/3, " mm (a third of the tile)")
	c.between("tile.texture", t.Texture, 0, min(t.Width, t.Height)/2, " mm (half the tile)")
	c.oneOf("tile.layout", string(t.Layout), "whole", "ends", "sides")
	if _, err := t.Zones(); err != nil && len(c.problems) == 0 {
		c.fail("tile.first-dip", "and second-dip do not fit: "+err.Error(),
			fmt.Sprintf("for three equal zones write %.3g for both", 2*t.Glazed()/3))
	}
}

func (c *checker) kiln(k tiles.Kiln) {
	c.between("kiln.gap", k.Gap, 6, 200, " mm") // 6 mm between glazed pieces at least: common practice, found written
	c.between("kiln.post", k.Post, 0, 150, " mm")
	c.between("kiln.height", k.Height, 0, 5000, " mm")
	c.between("kiln.cones", k.Cones, 0, 300, " mm")
	c.between("kiln.thermocouple", k.Thermocouple, 0, 200, " mm")
	c.between("kiln.tray", k.Tray, 0, 200, " mm")
	if len(k.Shelves) == 0 || len(k.Shelves) > 50 {
		c.fail("kiln.shelves", "must list 1 to 50 shelves", "")
	}
	seen := map[string]bool{}
	for i, s := range k.Shelves {
		path := item("kiln.shelves", i)
		shapes := []string{"rectangle", "round", "half-round"}
		c.oneOf(path+".shape", s.Shape, shapes...)
		c.between(path+".width", s.Width, 50, 3000, " mm")
		switch known := slices.Contains(shapes, s.Shape); {
		case known && s.Depth == 0:
			c.fail(path, "has no depth", "write how deep it is, like depth: 400")
		case known:
			c.between(path+".depth", s.Depth, 50, 3000, " mm")
		}
		name := strings.ToLower(s.Name)
		if name == "" || seen[name] {
			c.fail(path+".name", fmt.Sprintf("is %q", s.Name), "give every shelf a name of its own")
		}
		seen[name] = true
	}
}

func (c *checker) labels(l tiles.Labels) {
	c.between("labels.start", float64(l.Start), 1, 1000, "")
	c.between("labels.right", l.Right, -50, 50, " mm")
	c.between("labels.down", l.Down, -50, 50, " mm")
	c.inside("labels.font", l.Font)
	for i, s := range l.Sheets {
		path := item("labels.sheets", i)
		if s.Name == "" {
			c.fail(path+".name", "is empty", "give the sheet a name and use it as labels: sheet")
		}
		c.oneOf(path+".paper", s.Paper, "letter", "a4", tiles.PaperRoll)
		if s.Paper == tiles.PaperRoll {
			c.between(path+".width", s.Width, 20, 300, " mm")
			c.between(path+".height", s.Height, 10, 300, " mm")
			c.between(path+".dpi", float64(s.DPI), 0, 2400, " dots an inch")
			continue
		}
		c.between(path+".columns", float64(s.Columns), 1, 20, "")
		c.between(path+".rows", float64(s.Rows), 1, 50, "")
		c.between(path+".width", s.Width, 10, 300, " mm")
		c.between(path+".height", s.Height, 8, 300, " mm")
		c.between(path+".left", s.Left, 0, 200, " mm")
		c.between(path+".top", s.Top, 0, 200, " mm")
		c.between(path+".pitch-x", s.PitchX, s.Width, 300, " mm (the width and up)")
		c.between(path+".pitch-y", s.PitchY, s.Height, 300, " mm (the height and up)")
	}
}

// inside holds a path to the wall's folder.
func (c *checker) inside(path, file string) {
	if file != "" && (!filepath.IsLocal(filepath.FromSlash(file)) || strings.Contains(file, `\`)) {
		c.fail(path, fmt.Sprintf("is %q, outside the wall's folder", file), "put the file into the wall's folder and write its path from there, like fonts/ours.ttf")
	}
}

func (c *checker) rules(rules []tiles.Rule) {
	for i, r := range rules {
		c.oneOf(item("rules", i)+".do", r.Do, "skip", "caution", "allow")
	}
}

func (c *checker) dip(d tiles.Dip) {
	c.between("dip.seconds", d.Seconds, 0.5, 60, " seconds")
	c.between("dip.dry", d.Dry, 0, 2880, " minutes")
	c.between("dip.stir", d.Stir, 1, 240, " minutes")
	c.between("dip.together", float64(d.Together), 0, 100, " loads")
	c.between("dip.thickness", d.Thickness, 0.1, 3, " mm")
	c.between("dip.loss", d.Loss, 0, 90, " per cent")
	c.between("dip.spares", d.Spares, 0, 100, " per cent")
	c.between("dip.opening", d.Opening, 0, 60, " minutes")
	c.between("dip.handling", d.Handling, 0, 600, " seconds")
	c.between("dip.bucket", d.Bucket, 50, 2000, " mm")
	c.between("dip.cup", d.Cup, 20, 1000, " mm")
	c.between("dip.second-seconds", d.SecondSeconds, 0, 60, " seconds")
	c.oneOf("dip.second-from", string(d.SecondFrom), "jar", "trough", "brush", "bucket", "cup")
	if d.Coats != 1 && d.Coats != 2 {
		c.fail("dip.coats", fmt.Sprintf("is %d; a wall has one coat or two", d.Coats),
			"write 1 or 2: thicker stacks run, crack and fall off")
	}
}

func (c *checker) photo(p tiles.Photography) {
	c.oneOf("photo.reference", p.Reference, "", "none", "ground", "grey", "greys", "chart", "controls")
	c.inside("photo.chart", p.Chart)
	if n := len(p.Paper); n != 0 && n != 3 {
		c.fail("photo.paper", fmt.Sprintf("has %d numbers", n), "write L*, a* and b* of the mat's paper, like [93.6, 0.4, -3.1]")
	} else if n == 3 {
		c.between("photo.paper", p.Paper[0], 75, 100, " for L*")
		c.between("photo.paper", p.Paper[1], -15, 15, " for a*")
		c.between("photo.paper", p.Paper[2], -20, 20, " for b*")
	}
	c.between("photo.board.width", p.Board.Width, 0, 20_000, " mm")
	c.between("photo.board.height", p.Board.Height, 0, 20_000, " mm")
	c.between("photo.board.pitch-x", p.Board.PitchX, 0, 1000, " mm")
	c.between("photo.board.pitch-y", p.Board.PitchY, 0, 1000, " mm")
}

// CheckRules compares the settings with the glaze list: a rule, a control or a
// wish that names a glaze nobody lists is a problem.
func CheckRules(s tiles.Settings, glazes []tiles.Glaze) tiles.Problems {
	var ps tiles.Problems
	for _, r := range s.Rules {
		for _, word := range []string{r.First, r.Second, r.Either} {
			if word != "" && !isCodeOrTrait(word, glazes) {
				ps = append(ps, unknownCode(r.Line, "a rule names "+word+", which is neither a glaze code nor a trait", glazes))
			}
		}
	}
	for _, code := range s.Kiln.Controls {
		if _, ok := tiles.FindGlaze(glazes, code); !ok {
			ps = append(ps, unknownCode(0, "kiln: controls names the code "+code+", which is not in the glaze list", glazes))
		}
	}
	for _, code := range s.Part.Prefer {
		if _, ok := tiles.FindGlaze(glazes, code); !ok {
			ps = append(ps, unknownCode(0, "part: prefer names the code "+code+", which is not in the glaze list", glazes))
		}
	}
	return ps
}

func isCodeOrTrait(word string, glazes []tiles.Glaze) bool {
	if _, ok := tiles.FindGlaze(glazes, word); ok {
		return true
	}
	return slices.Contains(tiles.Traits, tiles.Trait(strings.ToLower(word)))
}

func unknownCode(line int, what string, glazes []tiles.Glaze) tiles.Problem {
	codes := make([]string, 0, len(glazes))
	for _, g := range glazes {
		codes = append(codes, g.Code)
	}
	do := "the codes are " + strings.Join(codes, ", ")
	if len(codes) > 24 {
		do = "write a code as the glaze list has it"
	}
	return tiles.Problem{File: SettingsFile, Line: line, What: what, Do: do}
}
