package site

import (
	"bytes"
	"html/template"
	"io/fs"
	"path"
	"reflect"
	"testing"
	"text/template/parse"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/themes"
)

// views is what each page's template gets.
var views = map[string]any{
	"wall.html": WallView{}, "tile.html": TileView{}, "glaze.html": GlazeView{}, "color.html": ColorView{},
	"order.html": OrderView{}, "trace.html": TraceView{}, "drift.html": DriftView{}, "room.html": Frame{}, "compare.html": Frame{}, "shortlist.html": Frame{}, "kept.html": Frame{}, "page.html": PageView{},
	"guesses.html": GuessesView{},
}

// filled makes a value with something in every field and one item in every
// list, so that no part of a template is passed over.
func filled(v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.String:
		v.SetString("x")
	case reflect.Int, reflect.Int64:
		v.SetInt(3)
	case reflect.Struct:
		for i := range v.NumField() {
			filled(v.Field(i), depth)
		}
	case reflect.Slice:
		if depth < 8 {
			v.Set(reflect.MakeSlice(v.Type(), 1, 1))
			filled(v.Index(0), depth+1)
		}
	}
}

func TestTemplatesFitTheirData(t *testing.T) {
	l, err := readTheme(nil)
	require.NoError(t, err)
	for name := range l.pages {
		view, known := views[name]
		require.True(t, known, "%s: say in views what it gets", name)
		for _, full := range []bool{false, true} {
			v := reflect.New(reflect.TypeOf(view)).Elem()
			if full {
				filled(v, 0)
			}
			var b bytes.Buffer
			require.NoError(t, l.page(&b, name, v.Interface()), name)
			assert.Contains(t, b.String(), "</html>")
		}
	}
}

func TestTemplatesDecideNothing(t *testing.T) {
	for _, name := range themes.Names() {
		if path.Ext(name) != ".html" {
			continue
		}
		src, err := fs.ReadFile(themes.Built(), name)
		require.NoError(t, err)
		parsed, err := template.New(name).Parse(string(src))
		require.NoError(t, err)
		for _, one := range parsed.Templates() {
			if one.Tree != nil {
				decides(t, name, one.Tree.Root)
			}
		}
	}
}

// decides fails the test where a template branches on a condition or compares:
// it may only go through lists and show what is there.
func decides(t *testing.T, name string, n parse.Node) {
	switch n := n.(type) {
	case *parse.ListNode:
		if n != nil {
			for _, child := range n.Nodes {
				decides(t, name, child)
			}
		}
	case *parse.IfNode:
		t.Errorf("%s decides: %s", name, n)
	case *parse.RangeNode:
		decides(t, name, n.List)
		assert.Nil(t, n.ElseList, "%s decides: %s", name, n)
	case *parse.WithNode:
		decides(t, name, n.List)
		assert.Nil(t, n.ElseList, "%s decides: %s", name, n)
	case *parse.ActionNode:
		for _, c := range n.Pipe.Cmds {
			if id, ok := c.Args[0].(*parse.IdentifierNode); ok {
				assert.Contains(t, []string{"len"}, id.Ident, "%s: %s", name, n)
			}
		}
	}
}
