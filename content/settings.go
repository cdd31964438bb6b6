// Package content reads what people write: the settings of a wall, its glaze
// list and its pages. It also holds the built-in pages and the starter wall.
//
// Every error is tiles.Problems: which file, which line, what is wrong, what
// to do. Nothing here writes into a wall, but for Start.
package content

import (
	"slices"
	"strings"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// SettingsFile is where a wall's settings stand.
const SettingsFile = "wall.yaml"

// Defaults are the settings of a wall whose wall.yaml says nothing: a small
// studio's upright tile on a foot, dipped from both sides in three equal lanes
// (2 × 40 mm on 60 mm), a small round kiln, Letter paper. Lanes, because a tile
// cannot be dipped from the end its foot is on, and because what runs on an
// upright tile would run over a band below. Common practice, no source.
func Defaults() tiles.Settings {
	return tiles.Settings{
		Name:     "Our glaze wall",
		Language: "en",
		Cone:     "6",
		Diagonal: tiles.DiagonalSingle,
		Tile: tiles.Shape{
			Width: 60, Height: 90, Thickness: 6, Foot: 25, Bare: 12,
			Layout: tiles.LayoutSides, FirstDip: 40, SecondDip: 40, Shrinkage: 12, Hole: 5.5, Texture: 13,
		},
		Kiln: tiles.Kiln{
			Name: "Kiln", Gap: 12, Upright: true, Tray: 10, Post: 40, Seed: 1, Cones: 60, Thermocouple: 40,
			Shelves: []tiles.Shelf{
				{Name: "top", Shape: "round", Width: 380, Depth: 380},
				{Name: "middle", Shape: "round", Width: 380, Depth: 380},
				{Name: "bottom", Shape: "round", Width: 380, Depth: 380},
			},
		},
		Paper:  "letter",
		Units:  tiles.UnitsMetric,
		Labels: tiles.Labels{Start: 1},
		Read:   3000,
		Part:   tiles.Portion{Both: true},
		Dip: tiles.Dip{
			Seconds: 3, Dry: 10, Stir: 5, Coats: 2, Thickness: 0.5, Loss: 15, Spares: 10,
			Opening: 4, Handling: 25, Bucket: 280, Cup: 120,
			SecondSeconds: 2, SecondFrom: tiles.SecondJar,
		},
		Clay:   tiles.Clay{Bisque: "04", Density: 2, Waste: 15},
		Retest: tiles.RetestSingle,
	}
}

// ReadSettings reads wall.yaml of the wall in dir over the Defaults and checks
// every value. It knows nothing of glazes: CheckRules compares the two.
func ReadSettings(dir folder.Folder) (tiles.Settings, error) {
	text, err := readText(dir, SettingsFile, maxYAML)
	if err != nil {
		return tiles.Settings{}, noWall(dir, err)
	}
	return ParseSettings(text)
}

// ParseSettings is ReadSettings on the text of a wall.yaml.
func ParseSettings(text []byte) (tiles.Settings, error) {
	s := Defaults()
	doc, ps := decodeYAML(SettingsFile, text, &s)
	if len(ps) > 0 {
		return tiles.Settings{}, ps
	}
	lines := linesOf(doc)
	for i := range s.Rules {
		s.Rules[i].Line = lines[item("rules", i)]
	}
	for i := range s.Kiln.Shelves {
		shelf := &s.Kiln.Shelves[i]
		if shelf.Shape == "round" && shelf.Depth == 0 {
			shelf.Depth = shelf.Width
		}
		if shelf.Shape == "half-round" && shelf.Depth == 0 {
			shelf.Depth = shelf.Width / 2
		}
	}
	tidySettings(&s)
	c := checker{lines: lines, problems: endless(SettingsFile, doc)}
	if len(c.problems) == 0 {
		c.settings(s) // against an endless number nothing can be held
	}
	if len(c.problems) > 0 {
		return tiles.Settings{}, c.problems
	}
	return s, nil
}

// tidySettings makes the words that people see or type safe to show and easy
// to compare.
func tidySettings(s *tiles.Settings) {
	s.Name, s.Cone, s.Clay.Body = tidy(s.Name), tidy(s.Cone), tidy(s.Clay.Body)
	s.Paper = paperName(s.Paper)
	for i := range s.Labels.Sheets {
		s.Labels.Sheets[i].Paper = paperName(s.Labels.Sheets[i].Paper)
	}
	for i := range s.Rules {
		r := &s.Rules[i]
		r.First, r.Second, r.Either, r.Reason = tidy(r.First), tidy(r.Second), tidy(r.Either), tidy(r.Reason)
	}
	for i := range s.Kiln.Shelves {
		s.Kiln.Shelves[i].Name = tidy(s.Kiln.Shelves[i].Name)
	}
	for i := range s.Kiln.Controls {
		s.Kiln.Controls[i] = tidy(s.Kiln.Controls[i])
	}
	for i := range s.Part.Prefer {
		s.Part.Prefer[i] = tidy(s.Part.Prefer[i])
	}
}

// paperName is a paper's name as the settings know it: people write A4. One
// that is not known stays as it was written, to be said so.
func paperName(written string) string {
	if low := strings.ToLower(tidy(written)); slices.Contains(papers, low) || low == "roll" {
		return low
	}
	return written
}
