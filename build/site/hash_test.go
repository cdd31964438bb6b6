package site

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A page is taken over where the hash of what it shows is the same, and the
// hash sees exported fields alone: a view must have no other, at any depth, nor
// one that JSON leaves out.
func TestEverythingAPageShowsIsHashed(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var look func(reflect.Type)
	look = func(of reflect.Type) {
		if seen[of] {
			return
		}
		seen[of] = true
		switch of.Kind() {
		case reflect.Slice, reflect.Array, reflect.Pointer:
			look(of.Elem())
		case reflect.Struct:
			for i := range of.NumField() {
				f := of.Field(i)
				assert.True(t, f.IsExported(), "%s.%s is not hashed", of, f.Name)
				assert.NotEqual(t, "-", f.Tag.Get("json"), "%s.%s is not hashed", of, f.Name)
				look(f.Type)
			}
		case reflect.Func, reflect.Interface, reflect.Map, reflect.Chan:
			t.Errorf("%s cannot be hashed in one way only", of)
		}
	}
	for _, view := range []any{TileView{}, WallView{}, GlazeView{}, OrderView{}, ColorView{}, PageView{}, TraceView{}, DriftView{}, GuessesView{}, Frame{}} {
		look(reflect.TypeOf(view))
	}
	assert.Greater(t, len(seen), 25)
}
