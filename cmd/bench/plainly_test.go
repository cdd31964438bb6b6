package bench

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
	"github.com/twodip/twodip/tiles/run"
)

// typedCommand is a command that a sentence tells a person to type.
var typedCommand = regexp.MustCompile(`twodip [a-z]+|--[a-z]+`)

// TestNoPageTellsToTypeACommand spoils a wall in the ways that a command would
// mend, and reads every page.
func TestNoPageTellsToTypeACommand(t *testing.T) {
	for name, spoil := range map[string]struct {
		do   func(t *testing.T, dir folder.Folder)
		says string // somewhere
	}{
		"sound": {func(*testing.T, folder.Folder) {}, "It is written; nothing would change."},
		"plan cut short": {func(t *testing.T, dir folder.Folder) {
			text := read(t, dir, record.PlanFile)
			require.NoError(t, dir.WriteBytes(record.PlanFile, []byte(strings.Join(strings.SplitAfter(text, "\n")[:3], ""))))
		}, "on the page Plan, bring back the version of "},
		"a code typed over": {func(t *testing.T, dir folder.Folder) {
			require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(strings.Replace(sixGlazes, "PI,Pitch", "PX,Pitch", 1))))
		}, "give the glaze its old code back and rename it there"},
		"codes swapped": {func(t *testing.T, dir folder.Folder) {
			require.NoError(t, dir.WriteBytes(content.GlazesCSV, []byte(strings.NewReplacer("QM,Quarry Milk", "LR,Quarry Milk", "LR,Lamp Rust", "QM,Lamp Rust").Replace(sixGlazes))))
		}, "the page Glazes asks then whether it is the same glaze"},
		"a second plan": {func(t *testing.T, dir folder.Folder) {
			require.NoError(t, dir.WriteBytes("tiles/plan (1).csv", []byte(read(t, dir, record.PlanFile))))
		}, "looks like a second version"},
		"no wall any more": {func(t *testing.T, dir folder.Folder) { require.NoError(t, os.Remove(dir.Path(content.SettingsFile))) }, "name another folder"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := glazed(t)
			_, err := run.Plan(dir, run.PlanWish{})
			require.NoError(t, err)
			spoil.do(t, dir)
			c := open(t, dir.Dir())
			all := ""
			for _, r := range rooms() {
				p := c.get(r.path)
				assert.NotRegexp(t, typedCommand, p.main(), r.path)
				all += p.main()
			}
			for _, post := range [][]string{{"/plan/apply"}, {"/site/make"}, {"/sheets/print", "sheet", "drift"}, {"/sheets/print", "sheet", "trace"}, {"/open", "wall", t.TempDir()}} {
				p := c.post(post[0], post[1:]...)
				assert.NotRegexp(t, typedCommand, p.main(), post)
				all += p.main()
			}
			assert.Contains(t, all, spoil.says)
		})
	}
}
