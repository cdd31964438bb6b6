package run

import (
	"encoding/json"
	"fmt"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/english"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/foresee"
)

// What foresee says to programs; other tools lean on these names. Medians and
// radii are ΔE00, colors CIELAB.
type (
	foreseenOutline struct {
		Speaks  bool           `json:"speaks"`
		Why     string         `json:"why"`
		LeftOut leftOutOutline `json:"left-out"`
		Guesses []guessOutline `json:"guesses"`
		Next    []pairOutline  `json:"next"`
	}
	leftOutOutline struct {
		Median float64 `json:"median"`
		Second float64 `json:"second"`
	}
	guessOutline struct {
		First  string  `json:"first"`
		Second string  `json:"second"`
		L      float64 `json:"l"`
		A      float64 `json:"a"`
		B      float64 `json:"b"`
		Half   float64 `json:"half"`
		Ninety float64 `json:"ninety"`
	}
	pairOutline struct {
		First  string `json:"first"`
		Second string `json:"second"`
	}
)

// MarshalJSON says it for programs.
func (f Foreseen) MarshalJSON() ([]byte, error) {
	return json.Marshal(foreseenOutline{
		f.Speaks, f.Why, leftOutOutline{round2(f.Median), round2(f.Second)},
		each(f.Guesses, func(g Guess) guessOutline {
			return guessOutline{g.Pair.First, g.Pair.Second, round2(g.Lab.L), round2(g.Lab.A), round2(g.Lab.B), round2(g.Half), round2(g.Ninety)}
		}),
		each(f.Next, func(c Candidate) pairOutline { return pairOutline{c.Pair.First, c.Pair.Second} }),
	})
}

// notes say what stands in the way of guessing more.
func (s *foresight) notes() []string {
	var out []string
	if len(s.gone) > 0 {
		out = append(out, "no tile shows "+english.And(s.gone)+" alone: its pairs cannot be guessed before its single is fired and measured")
	}
	if s.wait > 0 {
		out = append(out, fmt.Sprintf("%s without a reading: photograph and measure what is fired before firing more", english.Count(s.wait, "fired pair is", "fired pairs are")))
	}
	return out
}

// GuessExplained says what the guess of a pair stands on.
type GuessExplained struct {
	Pair  tiles.Pair
	Said  string   // the pair in words
	Lines []string // sentences
}

// MarshalJSON says it for programs.
func (e GuessExplained) MarshalJSON() ([]byte, error) {
	return json.Marshal(struct {
		pairOutline
		Why []string `json:"why"`
	}{pairOutline{e.Pair.First, e.Pair.Second}, e.Lines})
}

// ExplainGuess explains the guess of one pair, by its codes (W,K) or its
// tile's number. Of a pair that is fired it says what came out, too.
func ExplainGuess(dir folder.Folder, what string) (GuessExplained, error) {
	wall, err := Load(dir)
	if err != nil {
		return GuessExplained{}, err
	}
	pair, _, err := pairOrTile(wall, what)
	if err != nil {
		return GuessExplained{}, err
	}
	s := newForesight(wall)
	e := GuessExplained{Pair: pair, Said: wall.Say(pair)}
	c, ok := s.Cell(pair)
	switch {
	case !s.standing.Speaks:
		e.Lines = []string{s.standing.Why}
	case !ok:
		e.Lines = []string{"only pairs of two glazes are guessed, and only where a tile shows each of them alone"}
	default:
		e.Lines = s.explain(c)
	}
	return e, nil
}

func (s *foresight) explain(c foresee.Cell) []string {
	why, radius := s.Why(c.First, c.Second), s.standing.Radius
	name := func(at int) string { return s.wall.Glaze(s.Codes[at]).Name }
	lines := []string{
		fmt.Sprintf("%s covers to %.0f %% (from %s)", name(c.Second), 100*why.Share, english.Count(why.From, "tile", "tiles")),
		fmt.Sprintf("over %s that makes %s", name(c.First), color.Describe(why.Rule, radius.Half)),
	}
	if way := foresee.SayPull(why.Pull); way == "" {
		lines = append(lines, "its neighbors came out about as such covering would have them")
	} else {
		lines = append(lines, "its neighbors came out "+way+": "+s.nearSaid(why.Near))
	}
	lines = append(lines, fmt.Sprintf("so: %s; half of such guesses on this wall were within %.0f, nine of ten within %.0f",
		color.Describe(why.Guess, radius.Half), radius.Half, radius.Ninety))
	for k, p := range s.Pairs {
		if p.First == c.First && p.Second == c.Second {
			lines = append(lines, fmt.Sprintf("it is fired, tile %d: %s, %.1f from what the other tiles alone would have guessed",
				s.Tiles[k], color.Describe(p.Lab, 0), s.Errors[k]))
		}
	}
	return lines
}

// nearSaid names the fired pairs that drew a guess most.
func (s *foresight) nearSaid(near []int) string {
	said := make([]string, len(near))
	for i, k := range near {
		p := s.Pairs[k]
		said[i] = fmt.Sprintf("tile %d (%s)", s.Tiles[k], s.wall.Say(s.Wall.Pair(foresee.Cell{First: p.First, Second: p.Second})))
	}
	return english.And(said)
}
