package main

import (
	"go/ast"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/cmd/listen/chromium"
	"github.com/twodip/twodip/cmd/listen/firefox"
)

// A test that looks for a program or a module that .ci/test does not install
// passes where somebody has it by chance, and fails on a fresh machine.
func TestWhatTestsLookForIsInstalledByCI(t *testing.T) {
	ci, err := os.ReadFile("../../.ci/test")
	require.NoError(t, err)
	programs := append(slices.Collect(maps.Keys(programs)), append(firstWords(t, string(ci), "needs"), "go")...)
	modules := append(firstWords(t, string(ci), "python"), "sys", "time") // Python's own
	peers := regexp.MustCompile(`(?m)^peers=\((.*)\)$`).FindStringSubmatch(string(ci))
	require.NotNil(t, peers)
	looked := 0
	for dir, files := range testFiles(t) {
		ls := lookers{"exec.LookPath": {0, false}, "exec.Command": {0, false}, "exec.CommandContext": {1, false}, "chromedp.ExecPath": {0, false}}
		ls.follow(files)
		for _, name := range ls.names(files) {
			looked++
			assert.Contains(t, programs, name, "%s looks for a program that .ci/test does not install", dir)
		}
		for _, name := range (lookers{"nodeModules": {1, false}}).names(files) {
			looked++
			assert.Contains(t, peers[1], name+"@", "%s asks for a module from npm that .ci/test does not install", dir)
		}
		for _, name := range imported(files) {
			looked++
			assert.Contains(t, modules, name, "%s imports a module of Python that .ci/test does not install", dir)
		}
	}
	for _, name := range []string{chromium.Program, firefox.Program} {
		assert.Contains(t, programs, name)
	}
	for _, name := range inScripts(t) {
		assert.Contains(t, programs, name, "a session under testdata/script runs a program that .ci/test does not install")
	}
	assert.Greater(t, looked, 40, "the places where tests look for programs are no longer found")
}

// firstWords are those of the lines of a list in the script.
func firstWords(t *testing.T, script, list string) (words []string) {
	t.Helper()
	m := regexp.MustCompile(`(?m)^` + list + `='\n([^']*)'$`).FindStringSubmatch(script)
	require.NotNil(t, m, list)
	for line := range strings.Lines(m[1]) {
		words = append(words, strings.Fields(line)[0])
	}
	return words
}

// inScripts are the programs that the sessions run.
func inScripts(t *testing.T) (names []string) {
	t.Helper()
	scripts, err := filepath.Glob("testdata/script/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, scripts)
	for _, script := range scripts {
		text, err := os.ReadFile(script)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`(?m)^[!?]? *exec (\S+)`).FindAllSubmatch(text, -1) {
			names = append(names, string(m[1]))
		}
	}
	return names
}

// testFiles are the parsed tests of every folder.
func testFiles(t *testing.T) map[string][]*ast.File {
	t.Helper()
	all := map[string][]*ast.File{}
	for dir, files := range parsed(t, true) {
		all[dir] = slices.Collect(maps.Values(files))
	}
	return all
}

// lookers are functions that look for the program named by one of their
// arguments, or by that one and all after it.
type lookers map[string]struct {
	argument int
	andRest  bool
}

// follow adds the functions that hand one of their own parameters on to a
// looker, until there are no more.
func (ls lookers) follow(files []*ast.File) {
	for before := -1; before != len(ls); {
		before = len(ls)
		for f := range functions(files) {
			ranged := rangedOver(f)
			ls.each(f, func(e ast.Expr) {
				id, ok := e.(*ast.Ident)
				if !ok {
					return
				}
				name := id.Name
				if over, ok := ranged[name].(*ast.Ident); ok {
					name = over.Name
				}
				if i, rest, ok := parameter(f, name); ok {
					ls[f.Name.Name] = struct {
						argument int
						andRest  bool
					}{i, rest}
				}
			})
		}
	}
}

// names are the programs asked for: the words in quotation marks that are
// given to a looker, or that a loop around it runs over.
func (ls lookers) names(files []*ast.File) (names []string) {
	for f := range functions(files) {
		ranged := rangedOver(f)
		ls.each(f, func(e ast.Expr) {
			if index, ok := e.(*ast.IndexExpr); ok {
				e = index.X
			}
			if id, ok := e.(*ast.Ident); ok {
				names = append(names, firsts(ranged[id.Name])...)
			}
			names = append(names, firsts(e)...)
		})
	}
	return names
}

// each gives every expression of a function that says what to look for.
func (ls lookers) each(f *ast.FuncDecl, do func(ast.Expr)) {
	ast.Inspect(f, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		l, ok := ls[called(call)]
		for i, a := range call.Args {
			if ok && (i == l.argument || l.andRest && i > l.argument) {
				do(a)
			}
		}
		return true
	})
}

func functions(files []*ast.File) func(yield func(*ast.FuncDecl) bool) {
	return func(yield func(*ast.FuncDecl) bool) {
		for _, file := range files {
			for _, d := range file.Decls {
				if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil && !yield(f) {
					return
				}
			}
		}
	}
}

// called is the name of what is called, with its package where it has one.
func called(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if pkg, ok := f.X.(*ast.Ident); ok {
			return pkg.Name + "." + f.Sel.Name
		}
	}
	return ""
}

// parameter is the place of a function's parameter, and whether any number of
// arguments go into it.
func parameter(f *ast.FuncDecl, name string) (place int, rest, ok bool) {
	for _, field := range f.Type.Params.List {
		_, rest = field.Type.(*ast.Ellipsis)
		for _, id := range field.Names {
			if id.Name == name {
				return place, rest, true
			}
			place++
		}
	}
	return 0, false, false
}

// rangedOver gives what each loop's variable runs over.
func rangedOver(f *ast.FuncDecl) map[string]ast.Expr {
	over := map[string]ast.Expr{}
	ast.Inspect(f, func(n ast.Node) bool {
		if r, ok := n.(*ast.RangeStmt); ok {
			if id, ok := r.Value.(*ast.Ident); ok {
				over[id.Name] = r.X
			}
		}
		return true
	})
	return over
}

// firsts are a word in quotation marks, those of a list, or the first of each
// list in a list.
func firsts(e ast.Expr) (words []string) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if word, err := strconv.Unquote(e.Value); err == nil {
			return []string{filepath.Base(word)}
		}
	case *ast.CompositeLit:
		for _, one := range e.Elts {
			if list := firsts(one); len(list) > 0 {
				_, deep := one.(*ast.CompositeLit)
				words = append(words, list[:map[bool]int{true: 1, false: len(list)}[deep]]...)
			}
		}
	}
	return words
}

// pythonImport is a line of Python that imports.
var pythonImport = regexp.MustCompile(`(?m)^import ([a-z][\w., ]*)$`)

// imported are the modules that Python in the tests' strings imports.
func imported(files []*ast.File) (modules []string) {
	for _, file := range files {
		ast.Inspect(file, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, _ := strconv.Unquote(lit.Value)
			for _, m := range pythonImport.FindAllStringSubmatch(text, -1) {
				for one := range strings.SplitSeq(m[1], ",") {
					module, _, _ := strings.Cut(strings.Fields(one)[0], ".")
					modules = append(modules, module)
				}
			}
			return true
		})
	}
	return slices.Compact(modules)
}
