//go:build linux

package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

var textWeapons = []weapon{
	{"wall.yaml", func(r *rand.Rand, w ready) attack {
		return attack{files: map[string]string{"wall.yaml": spoiledYAML(r, w.texts["wall.yaml"])},
			commands: [][]string{{"check"}, {"plan"}, {"measure"}, {"print", "labels", "grid"}, {"build"}}}
	}},
	{"glazes.yaml", func(r *rand.Rand, _ ready) attack {
		text := "glazes:\n  - code: QM\n    name: Quarry Milk\n    cone: 06\n    traits: [runny]\n  - {code: FG, name: Fen Glass, sg: 1.45}\n"
		return attack{files: map[string]string{"content/glazes.yaml": spoiledYAML(r, text)}, place: removed("content/glazes.csv"),
			commands: [][]string{{"check"}, {"plan"}, {"build"}}}
	}},
	{"page", hostilePage},
	{"page's head", func(r *rand.Rand, _ ready) attack {
		return ofPage("content/a.md", "---\n"+spoiledYAML(r, "title: A page\norder: 3\n")+"---\n\n# A page\n\nWords.\n")
	}},
	{"pages of hostile names", pageNames},
	{"theme", hostileTheme},
}

func removed(name string) func(*testing.T, string) {
	return func(t *testing.T, dir string) { require.NoError(t, os.Remove(filepath.Join(dir, name))) }
}

// hostileWord is a word that tries to be something else, or none at all.
func hostileWord(r *rand.Rand) string {
	if r.IntN(2) == 0 {
		return hostileWords[r.IntN(len(hostileWords))]
	}
	return pick(r, "", " ", "\t", "0", "-1", "1e999", "-1e-999", "NaN", ".inf", "99999999999999999999", "0x10", "1_000", "２", "½", "1,5", "'", `"`, "null", "~", "true", "2026-13-45", "0000-00-00",
		"31/2/2026", "../../../etc/passwd", "/etc/passwd", `..\..\x`, "con", "a\x00b", "\ufeff", strings.Repeat("é", 40_000), strings.Repeat("word ", 200_000), strings.Repeat("a;", 2_000),
		"Z"+strings.Repeat("\u0301", 1_000), "\u2066\u202e", "\U0010ffff", "𝔘𝔫𝔦", "＝1+1", "\xff\xfe", "\u2028", "#N/A", "%", "QM", "Quarry Milk", "1", "[a, b]", "{a: b}", "*a", "&a b", "!!binary aGk=", "|", ">-", "- -", "? a", "@", "`")
}

// mangled is the text with some of what happens to texts.
func mangled(r *rand.Rand, text string) string {
	for range 1 + r.IntN(2) {
		text = mangle(r, text)
	}
	return text
}

func mangle(r *rand.Rand, text string) string {
	at := r.IntN(len(text) + 1)
	lines := strings.SplitAfter(text, "\n")
	line := r.IntN(len(lines))
	switch r.IntN(16) {
	case 0:
		return text[:at]
	case 1:
		return text[:at] + hostileWord(r) + text[at:]
	case 2:
		return strings.ReplaceAll(text, "\n", pick(r, "\r", "\r\n", "\n\n", "\v", "\u2028", ""))
	case 3:
		return encoded(r, text)
	case 4:
		return string(turned(r, []byte(text+" ")))
	case 5:
		return strings.Join(slices.Concat(lines[:line], slices.Repeat(lines[line:line+1], pick(r, 2, 50, 5_000)), lines[line:]), "")
	case 6:
		return pick(r, "", " ", "\n", "\x00", "\ufeff", "\ufeff\ufeff"+text, "x")
	case 7:
		return text[:at] + pick(r, `"`, "'", "\x00", "\t", "[", "{", "#", ":", "- ", "\ufeff", "\u202e") + text[at:]
	case 8:
		return text[:at] + strings.Repeat(pick(r, "[", "{", "- ", "> ", "a: ", "x", "\n", " ", ",", "(", "*", "`", "<div>"), pick(r, 70, 10_000, 900_000)) + text[at:]
	case 9:
		r.Shuffle(len(lines), func(i, j int) { lines[i], lines[j] = lines[j], lines[i] })
		return strings.Join(lines, "")
	case 10:
		return text + text
	case 11:
		return strings.ReplaceAll(text, pick(r, "e", ",", ":", " ", "1"), pick(r, "", "é", "\t", ",,", "  "))
	}
	lines[line] = strings.TrimRight(lines[line], "\n") + hostileWord(r) + "\n"
	return strings.Join(lines, "")
}

func encoded(r *rand.Rand, text string) string {
	var b bytes.Buffer
	if r.IntN(3) == 0 { // Latin-1
		for _, c := range text + "é" {
			b.WriteByte(byte(c))
		}
		return b.String()
	}
	low, high := pick(r, 0, 1), 0
	high = 1 - low
	if r.IntN(2) == 0 {
		b.WriteString([]string{"\xff\xfe", "\xfe\xff"}[low])
	}
	for _, u := range utf16.Encode([]rune(text)) {
		two := [2]byte{}
		two[low], two[high] = byte(u), byte(u>>8)
		b.Write(two[:])
	}
	if r.IntN(4) == 0 {
		b.WriteByte('x')
	}
	return b.String()
}

// spoiledYAML is the text with a value, a key or its form spoiled.
func spoiledYAML(r *rand.Rand, text string) string {
	if r.IntN(3) == 0 {
		return mangled(r, text)
	}
	lines := strings.SplitAfter(text, "\n")
	for range 1 + r.IntN(3) {
		i := r.IntN(len(lines))
		key, _, found := strings.Cut(lines[i], ":")
		if !found {
			continue
		}
		lines[i] = pick(r,
			key+": "+hostileWord(r)+"\n", key+":\n  - "+hostileWord(r)+"\n", key+": [1, {a: [2]}]\n", "\t"+lines[i], " "+lines[i], lines[i]+lines[i], "- "+lines[i], key+"\n",
			key+": !!python/object:os.system x\n", key+": !!float x\n", key+": 2026-01-01\n", key+": |9\n", "<<: {"+key+": 1}\n", "? [a, b]\n: c\n", key+": \"\\ud800\"\n", "--- \n"+lines[i], "%YAML 9.9\n---\n",
			key+": 0b1\n", key+": +.inf\n", key+": 1e400\n", key+": '\n", key+": \"\\q\"\n", key+": *x\n", key+": &x 1\n", "..."+lines[i], key+": {\n", key+": ]\n")
	}
	return strings.Join(lines, "")
}

func ofPage(name, text string) attack {
	return attack{files: map[string]string{name: text}, commands: [][]string{{"check"}, {"build"}}}
}

func hostilePage(r *rand.Rand, w ready) attack {
	n := pick(r, 3, 200, 3_000)
	link := pick(r, "../../beside/secret.txt", "/etc/passwd", `..\..\beside\secret.txt`, "file:///etc/passwd", "//example.org/x.png", "data:text/html,<script>owned()</script>", "%2e%2e/%2e%2e/beside/secret.txt",
		"a.png?x#y", "\x00.png", strings.Repeat("a/", 3_000)+"b.png", "JAVASCRIPT:owned()", "con.png", "../tiles/photos/1.jpg", ".", "..", "", "our-studio.md", "<>", "https://[::1", "a b.png")
	return ofPage("content/a.md", "# A\n\n"+pick(r,
		strings.Repeat("![a]("+link+") [b]("+link+")\n\n", n), strings.Repeat("> ", n)+"x", strings.Repeat("- ", n)+"x", strings.Repeat(" ", n)+"1. x", strings.Repeat("*", n)+"x"+strings.Repeat("_", n),
		strings.Repeat("[", n)+"x"+strings.Repeat("](b)", n), strings.Repeat("<div>", n), "<!--"+strings.Repeat("-", n), strings.Repeat("`", n)+"x", strings.Repeat("&amp;&#0;&#x110000;", n),
		strings.Repeat("[a]: "+link+"\n", n)+strings.Repeat("[a] ", n), strings.Repeat("# H\n", n), strings.Repeat("|a", n)+"|\n"+strings.Repeat("|-", n)+"|\n|b|\n",
		strings.Repeat("[^1]", n)+"\n\n[^1]: "+strings.Repeat("[^1]", n), strings.Repeat("\\", n), strings.Repeat("<a href='"+link+"'>", n), hostileWord(r), mangled(r, w.texts["content/our-studio.md"]),
		strings.Repeat("x\n===\n", n), strings.Repeat("http://a.b ", n), strings.Repeat("![", n), strings.Repeat("a**", n), strings.Repeat("~~", n), strings.Repeat("\t", n)+"x", strings.Repeat("- [ ] x\n", n)))
}

func pageNames(r *rand.Rand, _ ready) attack {
	a := ofPage("content/"+pick(r, "con.md", "..md", ".md", "index.md", "README.md", "A.MD", "a.md.md", "<script>.md", "=cmd.md", "\u202edm.a.md", "釉薬 青.md", strings.Repeat("n", 250)+".md",
		"a?b#c%2e.md", `a\b.md`, "a\nb.md", "\xff.md", "-.md", "~a.md", "style.md", "tile.md", " .md"), "# A page\n")
	if r.IntN(2) == 0 {
		for i := range pick(r, 3, 201, 1_000) {
			a.files[fmt.Sprintf("content/p%d%s.md", i, pick(r, "", " ", "-", "Ä"))] = "x"
		}
	}
	return a
}

// hostileTheme is a file of the wall's own theme. A template is a program, so
// one that goes on for ever is its owner's affair; one that is broken is told.
func hostileTheme(r *rand.Rand, _ ready) attack {
	name := "themes/" + pick(r, "tile.html", "layout.html", "wall.html", "parts.html", "page.html", "style/1-room.css", "script/say.js", "look.css", "../themes/x.html", "nothing.html")
	text := pick(r, "", "{{", "{{.Nothing}}", `{{template "x"}}`, `{{define "a"}}{{template "a"}}{{end}}{{template "a"}}`, `{{printf "%2000000000d" 1}}`, "{{index . 99}}", "{{end}}", "<script>{{.}}",
		"\x00", "\xff\xfe", strings.Repeat("{{if true}}", 20_000), strings.Repeat("x", 20<<20), "<a href={{.}}", `{{block "main" .}}`, "@import url(//example.org/x.css);", "}}}}{{{{", "/*", "`${", "{{len 3}}", "{{slice . 5}}",
		hostileWord(r))
	return attack{files: map[string]string{name: text}, commands: [][]string{{"check"}, {"build"}}}
}
