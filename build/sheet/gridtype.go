package sheet

import (
	"fmt"

	"github.com/twodip/twodip/tiles"
)

// Sign rules: letter height as a share of the reading distance (common
// practice, found written: 1 inch of letter per 10 feet; never less than 1:200).
const (
	easyShare  = 1.0 / 120
	leastShare = 1.0 / 200
)

// readFrom is the distance the wall is read from, mm; 3 m where not said.
func (j Job) readFrom() float64 {
	if j.Wall.Read > 0 {
		return j.Wall.Read
	}
	return 3000
}

// setType chooses one size for all codes, one for all names and one for all
// numbers, so that the wall reads as one.
func (g *wallGrid) setType() error {
	w, h := min(g.cols[1], g.board.PitchX)-5, g.rows[1]
	tall := g.job.readFrom() * easyShare
	g.codeStyle = style{pt: tall / capHeight / mmPerPoint, bold: true}
	for _, glaze := range g.job.Wall.Glazes {
		if wide := g.width(g.codeStyle, clean(glaze.Code)); wide > w {
			g.codeStyle.pt *= w / wide
		}
	}
	// Above the code stands "2nd", below it a gap for the tail of a Q and two
	// lines of name.
	if most := (h - 19) / (1 + 0.2/capHeight); g.codeStyle.capHeight() > most {
		g.codeStyle.pt *= most / g.codeStyle.capHeight()
	}
	tile := g.job.Wall.Settings.Tile
	g.numStyle = g.numberStyle(g.widest(g.job.Wall.Tiles), tile.Width*0.8, min(tile.Height*0.3, tall*1.1))
	g.nameStyle = style{pt: 14}
	for _, glaze := range g.job.Wall.Glazes {
		if _, err := g.headName(glaze); err != nil {
			return tiles.Problem{File: g.job.list(), Line: glaze.Line, What: fmt.Sprintf("the name of glaze %s %s", glaze.Code, err),
				Do: "shorten the name, or give photo: board: a larger pitch-x in wall.yaml"}
		}
	}
	return nil
}

// headName is a glaze's name set for the heads of rows and columns.
func (g *wallGrid) headName(glaze tiles.Glaze) (block, error) {
	room := g.rows[1] - 7 - g.codeStyle.capHeight() - g.codeGap() - 1.5
	return g.fit(clean(glaze.Name), g.nameStyle, min(g.cols[1], g.board.PitchX)-5, room, 8)
}

// codeGap keeps a name clear of the tail of a Q.
func (g *wallGrid) codeGap() float64 { return 1.5 + 0.2*g.codeStyle.mm() }

// sayHeights says when the heads cannot be read from where the wall is read.
func (g *wallGrid) sayHeights() {
	if g.codeStyle.capHeight() >= g.job.readFrom()*leastShare-0.01 {
		return
	}
	g.job.say(fmt.Sprintf("the grid's codes are %.0f mm tall: they read from %.1f m, not from %.1f m; a wider pitch-x of the board lets them grow",
		g.codeStyle.capHeight(), g.codeStyle.capHeight()/leastShare/1000, g.job.readFrom()/1000))
}
