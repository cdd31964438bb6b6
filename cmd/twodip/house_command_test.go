package main

import (
	"go/ast"
	"go/token"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// commandIn finds a command to type in a sentence.
var commandIn = regexp.MustCompile(`twodip (bench|build|check|demo|drift|find|foresee|forget|log|measure|plan|print|rename|restore|start|trace)\b|(^|\s)--[a-z]`)

// onlyTyped are functions whose sentences the bench never shows, and why.
var onlyTyped = map[string]string{
	"Lines":         "plan_say.go: what to type next stands apart from what is said, and the bench leaves it out",
	"sayNew":        "the same",
	"sessionStages": "what plan --calendar writes",
	"pairOrTile":    "the bench says it in its own words",
	"SayMissing":    "the same",
	"wanted":        "foresee is not on the bench",
}

// TestWhatTheBenchSaysIsDoneOnAPage looks for sentences that tell a person to
// type a command, in the packages whose problems the bench shows: where they make
// one, it also says what to do on a page (tiles.Problem, Page).
func TestWhatTheBenchSaysIsDoneOnAPage(t *testing.T) {
	found := 0
	for dir, files := range sourceFiles(t) {
		if !strings.HasPrefix(dir, "tiles") && !strings.HasPrefix(dir, "build") && dir != "content" {
			continue
		}
		for name, file := range files {
			for _, d := range file.Decls {
				f, ok := d.(*ast.FuncDecl)
				if !ok {
					continue
				}
				says, page := "", false
				ast.Inspect(f, func(n ast.Node) bool {
					switch n := n.(type) {
					case *ast.BasicLit:
						if n.Kind == token.STRING && commandIn.MatchString(strings.Trim(n.Value, "\"`")) {
							says = n.Value
						}
					case *ast.Ident:
						page = page || n.Name == "Page" || n.Name == "page" || n.Name == "Version"
					}
					return true
				})
				if says == "" {
					continue
				}
				found++
				if onlyTyped[f.Name.Name] == "" {
					assert.True(t, page, "%s/%s, %s: %s", dir, name, f.Name.Name, says)
				}
			}
		}
	}
	assert.Greater(t, found, 10, "the sentences were found")
}
