package site

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kinds is one page of every kind.
var kinds = []string{
	"index.html", "index.html#words=rust", "index.html#near=48+-8+-14", "index.html#words=rust+matte&first=QA",
	"tile/7.html", "tile/14.html", "tile/41.html", "tile/53.html", "glaze/LB.html", "color.html", "order.html",
	"compare.html#tiles=7,73", "shortlist.html", "shortlist.html#tiles=7,73", "room.html", "room.html#tile=69&show=1", "room.html#tile=69&show=1&both=1", "kept.html", "page/before-you-glaze.html", "page/safety.html",
}

// nodeModules is where the checkers from npm are, named by TWODIP_NODE_MODULES.
func nodeModules(t *testing.T, module string) string {
	dir := os.Getenv("TWODIP_NODE_MODULES")
	_, err := os.Stat(filepath.Join(dir, module))
	needs(t, dir == "" || err != nil, module+" (npm, in the folder that TWODIP_NODE_MODULES names)")
	return dir
}

// violation is what axe-core says.
type violation struct {
	ID    string
	Help  string
	Nodes []struct{ HTML, FailureSummary string }
}

// colorRules are axe-core's rules that look at colors: all that the other
// surround can change.
const colorRules = `runOnly: ['color-contrast', 'link-in-text-block'], `

// TestAccessible holds every kind of page against all rules of axe-core, and in
// the other surround against those of colors.
func TestAccessible(t *testing.T) {
	source, err := os.ReadFile(filepath.Join(nodeModules(t, "axe-core"), "axe-core", "axe.min.js"))
	require.NoError(t, err)
	dir, _ := standingSite(t)
	b := openTab(t, 1280, 900)
	for _, name := range kinds {
		hold(t, b, source, fileURL(dir, name), "dark", "")
		hold(t, b, source, fileURL(dir, name), "grey", colorRules)
	}
	teachers := build(t, teacherInput(t))
	for _, name := range []string{tracePath, driftPath} {
		hold(t, b, source, fileURL(teachers, name), "dark", "")
	}
}

// hold holds one page in one surround against axe-core, or against some of its rules.
func hold(t *testing.T, b *tab, source []byte, url, surround, rules string) {
	t.Helper()
	b.visit(url)
	eval[any](b, `(document.documentElement.dataset.surround = "`+surround+`", 1)`)
	eval[any](b, string(source)+"; 1")
	out, err := chromedp.Run(b.ctx, chromedp.Evaluate[string](
		`axe.run(document, { `+rules+`resultTypes: ['violations'] }).then(r => JSON.stringify(r.violations))`, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	var vs []violation
	require.NoError(t, json.Unmarshal([]byte(out), &vs))
	for _, v := range vs {
		t.Errorf("%s, %s: %s: %s\n%s\n%s", url, surround, v.ID, v.Help, v.Nodes[0].HTML, v.Nodes[0].FailureSummary)
	}
}

// validRules is html-validate's recommended set but for one rule: the wall is
// a table of divs, because rows of a real table cannot be left undrawn until
// they come into view, and a table that is displayed otherwise is no table to
// a screen reader.
const validRules = `{ "root": true, "extends": ["html-validate:recommended"], "rules": {
	"prefer-native-element": ["error", { "exclude": ["table", "row", "cell", "columnheader", "rowheader", "rowgroup"] }] } }`

// TestValid holds every page against html-validate.
func TestValid(t *testing.T) {
	modules := nodeModules(t, "html-validate")
	_, err := exec.LookPath("node")
	needs(t, err != nil, "node")
	dir, _ := standingSite(t)
	config := filepath.Join(t.TempDir(), "rules.json")
	require.NoError(t, os.WriteFile(config, []byte(validRules), 0o644))
	args := []string{filepath.Join(modules, "html-validate", "bin", "html-validate.mjs"), "--config", config, "--formatter", "text"}
	for _, name := range pages(t, dir) {
		if strings.HasPrefix(name, "tile/") && !strings.HasPrefix(name, "tile/1") {
			continue
		}
		args = append(args, filepath.Join(dir, name))
	}
	teachers := build(t, teacherInput(t))
	args = append(args, filepath.Join(teachers, tracePath), filepath.Join(teachers, driftPath))
	out, err := exec.Command("node", args...).CombinedOutput()
	assert.NoError(t, err, "%s", cut(string(out), 4000))
}

func cut(s string, n int) string {
	if len(s) > n {
		return s[:n] + " …"
	}
	return s
}
