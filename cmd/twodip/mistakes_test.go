package main

import (
	"bytes"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mistake is a slip of a teacher's, and the one sentence that is said of it.
type mistake struct {
	files map[string]string // put into the wall; gone = taken out
	args  string            // the command line, words apart by spaces
	says  string            // a whole line of what is said
}

// keptAt is when a version was kept, as it is said.
var keptAt = regexp.MustCompile(`\d{1,2} [A-Z][a-z]{2} \d\d:\d\d`)

const gone = "\x00gone"

// file is a wall's file of that text.
func file(name, text string) map[string]string { return map[string]string{name: text} }

func settings(text string) map[string]string { return file("wall.yaml", text) }
func glazes(rows string) map[string]string {
	return file("content/glazes.csv", "code,name,cone,shade,sg,traits\n"+rows)
}
func logged(rows string) map[string]string {
	return file("tiles/log.csv", "piece,date,first,second,load,result,faults,severity\n"+rows)
}

// list takes the place of glazes.csv.
func list(name, text string) map[string]string {
	return map[string]string{"content/glazes.csv": gone, name: text}
}

// teachersWall is a wall of three glazes, planned, with a reading of each single.
func teachersWall(t *testing.T) string {
	dir := filepath.Join(t.TempDir(), "wall")
	put(t, dir, "wall.yaml", "name: A wall\n")
	put(t, dir, "content/glazes.csv", "code,name,cone\nQM,Quarry Milk,6\nFG,Fen Glass,6\nOH,Ochre Hare,6\n")
	status, out, errs := twodip("plan", "--wall", dir)
	require.Zero(t, status, out+errs)
	plan, err := os.ReadFile(filepath.Join(dir, "tiles/plan.csv"))
	require.NoError(t, err)
	put(t, dir, "tiles/plan.csv", strings.Replace(string(plan), "planned", "fired", 1))
	put(t, dir, "tiles/measured.csv", "tile,zone,l,a,b,first\n1,whole,70,1,9,QM\n")
	return dir
}

// Mistakes as people make them, each with the sentence that it gets: where it
// is, what is wrong, what to do.
func TestMistakesGetTheirSentence(t *testing.T) {
	wall := teachersWall(t)
	for slip, m := range mistakes {
		t.Run(slip, func(t *testing.T) {
			dir := copyWall(t, wall)
			for name, text := range m.files {
				if text == gone {
					require.NoError(t, os.RemoveAll(filepath.Join(dir, name)))
					continue
				}
				put(t, dir, name, text)
			}
			t.Chdir(dir)
			args := strings.Fields(m.args)
			if len(args) == 0 {
				args = []string{"check"}
			}
			_, out, errs := twodip(args...)
			said := keptAt.ReplaceAllString(strings.ReplaceAll("\n"+out+errs, "\nnote: ", "\n"), "NOW")
			assert.Contains(t, strings.Split(said, "\n"), m.says)
		})
	}
	assert.GreaterOrEqual(t, len(mistakes), 60)
}

// greyPNG is a grey picture.
func greyPNG(width, height int) string {
	var b bytes.Buffer
	_ = png.Encode(&b, image.NewGray(image.Rect(0, 0, width, height))) // into memory: it cannot fail
	return b.String()
}
