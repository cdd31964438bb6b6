package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// sourceFiles are the parsed files of every package by folder and name.
func sourceFiles(t *testing.T) map[string]map[string]*ast.File { return parsed(t, false) }

// parsed are the Go files of every folder, its tests or the rest.
func parsed(t *testing.T, tests bool) map[string]map[string]*ast.File {
	t.Helper()
	all := map[string]map[string]*ast.File{}
	fset := token.NewFileSet()
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && strings.HasPrefix(d.Name(), ".") && d.Name() != "..":
			return fs.SkipDir
		case !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") != tests:
			return nil
		}
		f, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
		dir, _ := filepath.Rel("../..", filepath.Dir(path))
		dir = filepath.ToSlash(dir)
		if all[dir] == nil {
			all[dir] = map[string]*ast.File{}
		}
		all[dir][filepath.Base(path)] = f
		return err
	})
	require.NoError(t, err)
	return all
}
