package main

import (
	"go/ast"
	"maps"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHouseStructsAreSmall refuses a struct of more than 12 fields with methods
// in more than 3 files: it is a package in disguise.
func TestHouseStructsAreSmall(t *testing.T) {
	for dir, files := range sourceFiles(t) {
		fields, places := map[string]int{}, map[string]map[string]bool{}
		for name, file := range files {
			for _, d := range file.Decls {
				switch d := d.(type) {
				case *ast.GenDecl:
					maps.Copy(fields, structsOf(d))
				case *ast.FuncDecl:
					if of := receiver(d); of != "" {
						if places[of] == nil {
							places[of] = map[string]bool{}
						}
						places[of][name] = true
					}
				}
			}
		}
		for name, count := range fields {
			assert.False(t, count > 12 && len(places[name]) > 3,
				"%s.%s has %d fields and methods in %d files", dir, name, count, len(places[name]))
		}
	}
}

// structsOf counts the fields of the structs that are declared together.
func structsOf(d *ast.GenDecl) map[string]int {
	all := map[string]int{}
	for _, spec := range d.Specs {
		if one, ok := spec.(*ast.TypeSpec); ok {
			if s, ok := one.Type.(*ast.StructType); ok {
				for _, f := range s.Fields.List {
					all[one.Name.Name] += max(1, len(f.Names))
				}
			}
		}
	}
	return all
}

// receiver is the name of the type that a function is a method of.
func receiver(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return ""
	}
	of := f.Recv.List[0].Type
	if star, ok := of.(*ast.StarExpr); ok {
		of = star.X
	}
	if of, ok := of.(*ast.Ident); ok {
		return of.Name
	}
	return ""
}

// agreedKey is written as other tools were promised it, in foresee --json.
const agreedKey = "left-out"

// A program that reads --json finds every key written one way: words run
// together, each but the first with a capital.
func TestHouseKeysAreWrittenOneWay(t *testing.T) {
	key := regexp.MustCompile(`json:"([^",]*)`)
	oneWay := regexp.MustCompile(`^([a-z][a-zA-Z0-9]*)?$`)
	found := 0
	for dir, files := range sourceFiles(t) {
		if dir == "tiles/color/spectral" {
			continue // it reads a published file, whose keys are not ours
		}
		for name, file := range files {
			ast.Inspect(file, func(n ast.Node) bool {
				f, ok := n.(*ast.Field)
				if !ok || f.Tag == nil {
					return true
				}
				if m := key.FindStringSubmatch(f.Tag.Value); m != nil && m[1] != "-" && m[1] != agreedKey {
					found++
					assert.Regexp(t, oneWay, m[1], "%s/%s", dir, name)
				}
				return true
			})
		}
	}
	assert.Greater(t, found, 50)
}
