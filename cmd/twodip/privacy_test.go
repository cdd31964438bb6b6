package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/build/site"
)

// tokens gives out words that stand nowhere else, each with where it was typed.
type tokens struct {
	begin string
	at    map[string]string
}

func (k *tokens) new(where string) string {
	word := fmt.Sprintf("%s%03dxWv", k.begin, len(k.at)+1)
	k.at[word] = where
	return word
}

// TestNothingPrivateReachesTheSite types a word of its own into every place a
// person can type that is not for everybody, and looks for all of them in
// every file of the site, and in the files' names.
func TestNothingPrivateReachesTheSite(t *testing.T) {
	private, public := &tokens{"Zq", map[string]string{}}, &tokens{"Yk", map[string]string{}}
	dir := tokenWall(t, private, public)
	status, out, errs := twodip("--wall", dir, "measure")
	require.Zero(t, status, out+errs)
	status, out, errs = twodip("--wall", dir, "build")
	require.Zero(t, status, out+errs)
	assert.Contains(t, out, "of people's records the site holds: how often each fault was seen with ")

	require.GreaterOrEqual(t, len(private.at), 40)
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(filepath.Join(dir, "build", "site"), func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		all := strings.ToLower(filepath.ToSlash(path) + "\n" + string(data))
		for _, k := range []*tokens{private, public} {
			for word := range k.at {
				if strings.Contains(all, strings.ToLower(word)) {
					found[word] = path
				}
			}
		}
		return err
	}))
	for word, where := range private.at {
		assert.Empty(t, found[word], "typed as %s", where)
	}
	for word, where := range public.at {
		assert.NotEmpty(t, found[word], "%s is said to be published and is not: is this test looking in the right place?", where)
	}
}

// tokenWall is a wall with a word of its own everywhere.
func tokenWall(t *testing.T, private, public *tokens) string {
	p, o := private.new, public.new
	dir := smallWall(t, 4, map[string]string{})
	settings, err := os.ReadFile(filepath.Join(dir, "wall.yaml"))
	require.NoError(t, err)
	put(t, dir, "wall.yaml", "# "+p("a remark in wall.yaml")+"\n"+string(settings))
	glazes := strings.Split(strings.TrimSpace(demoLines(t, "content/glazes.csv", 5)), "\n")
	for i := range glazes {
		glazes[i] += "," + map[bool]string{true: "supplier", false: p("a column of the glaze list's own")}[i == 0]
	}
	put(t, dir, "content/glazes.csv", strings.Join(glazes, "\n")+"\n# "+p("a remark in the glaze list")+"\n")
	status, out, errs := twodip("--wall", dir, "plan")
	require.Zero(t, status, out+errs)
	plan, err := os.ReadFile(filepath.Join(dir, "tiles", "plan.csv"))
	require.NoError(t, err)
	rows := strings.Split(strings.TrimSpace(string(plan)), "\n")
	rows[0] += ",who dipped it"
	for i := 1; i < len(rows); i++ {
		rows[i] += "," + p("a column of the plan's own")
		if i == 4 {
			break
		}
	}
	put(t, dir, "tiles/plan.csv", strings.Join(rows, "\n")+"\n# "+p("a remark in the plan")+"\n")
	put(t, dir, "tiles/log.csv", tokenLog(t, dir, p))
	put(t, dir, "tiles/batches.csv", "glaze,batch,mixed,sg,sieved,note,who\nQM,"+p("a batch no tile is due for")+",2026-01-02,1.45,"+p("sieved")+","+p("a batch's note")+","+p("a batch's own column")+"\n# "+p("a remark in the batches")+"\n")
	put(t, dir, "tiles/loads.csv", "load,kiln,date,schedule,cones,tiles,note,who\n1,"+o("a load's kiln")+",2026-01-05,"+o("a load's schedule")+",top "+p("cones")+",1,"+p("a load's note")+","+p("a load's own column")+
		"\nG9,"+p("the kiln of a load without tiles")+",2026-01-09,"+p("its schedule")+",,,,\n")
	put(t, dir, "content/rules.md", "---\ntitle: Rules\n# "+p("a remark in a page's front matter")+"\n---\n\n<!-- "+p("a comment in a page")+" -->\n\n"+o("a page's words")+"\n\n![The shelf]("+pictureName(t, dir, p)+".png)\n\n[//]: # ("+p("a comment as people write it in Markdown")+")\n")
	put(t, dir, "content/_draft.md", p("a page left out"))
	put(t, dir, "content/README.md", p("a read-me"))
	put(t, dir, "notes.txt", p("a file beside the others"))
	put(t, dir, "tiles/"+p("a file's name")+".csv", p("a table that is not the wall's"))
	put(t, dir, "themes/style/5-find.css", "/* "+p("a remark in a style")+" */\n.find { color: inherit; }\n")
	put(t, dir, "themes/script/kept.js", "// "+p("a remark in a script")+"\n")
	put(t, dir, "themes/order.html", "{{define \"main\"}}{{/* "+p("a remark in a template")+" */}}<!-- "+p("an HTML comment in a template")+" --><h1>Order</h1>{{end}}")
	photograph(t, dir, 1, "1 "+p("a photo's name")+".jpg")
	photo := filepath.Join(dir, "tiles", "photos")
	entries, err := os.ReadDir(photo)
	require.NoError(t, err)
	name := entries[0].Name()
	data, err := os.ReadFile(filepath.Join(photo, name))
	require.NoError(t, err)
	comment := p("a comment in a photo")
	put(t, dir, "tiles/photos/"+name, string(data[:2])+"\xff\xfe\x00"+string(rune(len(comment)+2))+comment+string(data[2:]))
	put(t, dir, "tiles/by-hand.csv", "photo,tile,outline,note\n"+name+",1,,"+p("by-hand's note")+"\n")
	return dir
}

// tokenLog is a log of pieces of one pair, by five people, half of them with
// a fault that has a word and some with words of somebody's own.
func tokenLog(t *testing.T, dir string, p func(string) string) string {
	var b strings.Builder
	b.WriteString("piece,date,maker,clay,bisque,first,second,third,how,where,foot,load,shelf,result,faults,zone,severity,note,class\n")
	for i := range 12 {
		fault, result := "", "good"
		if i%2 == 0 {
			fault, result = "crawling; "+p("a fault in somebody's own words "+strconv.Itoa(i)), "fault"
		}
		cells := []string{p("piece"), "2026-02-03", p("maker"), p("clay"), p("bisque"), "QM", "FG", "", p("how"), p("where"), p("foot"), p("load"), p("shelf"), result, fault, "", "1", p("note"), p("the log's own column")}
		b.WriteString(strings.Join(cells, ",") + "\n")
	}
	b.WriteString("# " + p("a remark in the log") + "\n")
	return b.String()
}

// pictureName puts a picture beside the pages, with a word in its name and one
// in a PNG's text, and returns its name without the ending.
func pictureName(t *testing.T, dir string, p func(string) string) string {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 30))))
	data := b.Bytes()
	text := pngChunk("tEXt", []byte("Author\x00"+p("the author of a page's picture")))
	at := 8 + 25 // after the signature and the header
	name := p("the name of a page's picture")
	put(t, dir, "content/"+name+".png", string(data[:at])+string(text)+string(data[at:]))
	return name
}

// pngChunk is one chunk of a PNG (W3C PNG, third edition, section 5.3).
func pngChunk(kind string, body []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	out = append(append(out, kind...), body...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

func TestTheReadmeListsWhatTheSiteShows(t *testing.T) {
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	folded := strings.ReplaceAll(strings.Join(strings.Fields(string(readme)), " "), "’", "'")
	for _, of := range site.Published {
		assert.Contains(t, folded, strings.ReplaceAll(of.What, "’", "'"), of.File)
	}
}
