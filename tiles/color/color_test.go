package color

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLabUndoesXYZ(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := anyLab(t, "color")
		got := want.XYZ().Lab()
		if math.Abs(got.L-want.L)+math.Abs(got.A-want.A)+math.Abs(got.B-want.B) > 1e-9 {
			t.Fatalf("%v came back as %v", want, got)
		}
	})
}

// Both branches of CIELAB and the place they meet: (6/29)³ in exact fractions,
// where L* is 8. Source: CIE 15:2004, 8.2.1.1.
func TestLabBranchesMeetAtEight(t *testing.T) {
	meet := XYZ{D50.X * epsilon, epsilon, D50.Z * epsilon}
	assert.InDelta(t, 8, meet.Lab().L, 1e-12)
	below := XYZ{meet.X, epsilon - 1e-12, meet.Z}
	assert.InDelta(t, 8, below.Lab().L, 1e-8)
	assert.InDelta(t, 0.903296, XYZ{0, 0.001, 0}.Lab().L, 1e-6)
}

func TestHueAndChroma(t *testing.T) {
	assert.InDelta(t, 5, Lab{50, 3, -4}.Chroma(), 1e-12)
	assert.InDelta(t, 270, Lab{50, 0, -4}.Hue(), 1e-12)
	assert.False(t, Lab{50, math.NaN(), 0}.Real())
	assert.False(t, Lab{101, 0, 0}.Real())
}

// shared is a file of ../shared beside the checkout.
func shared(t testing.TB, path string) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for dir != filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		dir = filepath.Dir(dir)
	}
	full := filepath.Join(dir, "../shared", path)
	if _, err := os.Stat(full); err != nil {
		t.Skip("the shared reference files are not beside this checkout")
	}
	return full
}

// tool finds a program a check needs; where everything must run
// (TWODIP_ALL=1) its absence is a failure.
func tool(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("TWODIP_ALL") == "1" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}
