package content

import (
	"errors"
	"strings"
	"testing"

	"github.com/twodip/twodip/tiles"
)

// mustBeSaid holds every error of a reader to the form people see: problems of
// the named file, each in one line of its own words.
func mustBeSaid(t *testing.T, file string, err error) {
	t.Helper()
	var ps tiles.Problems
	if !errors.As(err, &ps) {
		t.Fatalf("%v is not tiles.Problems", err)
	}
	if len(ps) == 0 {
		t.Fatal("an error without a problem")
	}
	for _, p := range ps {
		if p.File != file || p.What == "" || p.Line < 0 {
			t.Fatalf("not said: %+v", p)
		}
	}
}

func mustBeAList(t *testing.T, glazes []tiles.Glaze) {
	t.Helper()
	for i, g := range glazes {
		if !isCode(g.Code) || g.Name == "" || g.Name != tidy(g.Name) || g.Line < 1 || g.SG != 0 && (g.SG < 1 || g.SG > 2.5) {
			t.Fatalf("let in: %+v", g)
		}
		if _, twice := tiles.FindGlaze(glazes[:i], g.Code); twice {
			t.Fatalf("let in twice: %+v", g)
		}
	}
}

func FuzzGlazesCSV(f *testing.F) {
	for _, seed := range []string{
		"code,name\nA,One\n", "\ufeffcode;name;sg\r\nA;\"O;ne\";1,45\r\n", "sep=;\ncode;name\nA;x\n", "\xff\xfec\x00o\x00d\x00e\x00,\x00n\x00a\x00m\x00e\x00",
		"code,name,traits,cautions\nA,=1+1,runny; not food,\"a;b|c\"\na,<script>,,\n", "# note\n\ncode\tname\nA\tx\n", "code,name\n\"A", "code,name\nA,a,b,c\n", "\x00",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		glazes, err := ParseGlazesCSV(raw)
		if err != nil {
			mustBeSaid(t, GlazesCSV, err)
			return
		}
		mustBeAList(t, glazes)
	})
}

func FuzzGlazesYAML(f *testing.F) {
	for _, seed := range []string{
		"- code: A\n  name: One\n", "glazes:\n- {code: 06, name: \"x\", sg: 1.4, traits: [runny, crawls], cautions: a; b, retired: yes}\n",
		"a: &a [*a]", "- code: [A]\n", "- - - -", "{{{{", "!!binary x", "--- a\n--- b\n", "- code: A\n  code: B", "? {}\n: []", "- <<: {code: A}",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		glazes, err := ParseGlazesYAML(text)
		if err != nil {
			mustBeSaid(t, GlazesYAML, err)
			return
		}
		mustBeAList(t, glazes)
	})
}

func FuzzSettings(f *testing.F) {
	files, err := Starter()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(files[SettingsFile])
	for _, seed := range []string{"", "name: x", "tile: {width: .nan}", "kiln: {shelves: [{name: a, shape: round, width: 1e308}]}", "rules:\n- {do: skip, first: A}",
		"labels: {sheets: [{columns: 9999999999}]}", "dip: {coats: 3}", "x: &x [*x]", "log: {headings: {a: b}}", "name: !!set {a}", "kiln: {seed: -1}", "\t", "a: b: c"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := ParseSettings(text)
		if err != nil {
			mustBeSaid(t, SettingsFile, err)
			return
		}
		if z, err := s.Tile.Zones(); err != nil || z.Overlap <= 0 || len(s.Kiln.Shelves) == 0 || s.Dip.Coats < 1 || s.Dip.Coats > 2 {
			t.Fatalf("let in: %+v", s)
		}
	})
}

func FuzzPage(f *testing.F) {
	for _, seed := range []string{"# A\n", "---\ntitle: x\norder: -2\n---\nbody", "---\ntitle: x\n", "---\n---\n", "\r\n---\r\ntitle: y\r\n---\r\n", "---\na: &a [*a]\n---\n", "---\n", "# \u202e\n"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		const file = "content/x y.md"
		p, err := ParsePage(file, text)
		if err != nil {
			mustBeSaid(t, file, err)
			return
		}
		if p.Title == "" || p.Title != tidy(p.Title) || p.Slug != "x-y" || p.Line < 1 || strings.Count(string(text), "\n") < p.Line-1 {
			t.Fatalf("let in: %+v", p)
		}
	})
}
