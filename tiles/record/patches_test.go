package record

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles/color"
	"github.com/twodip/twodip/tiles/folder"
)

func TestPatchesAreReadInTheOrderOfTheFile(t *testing.T) {
	dir := t.TempDir()
	put(t, dir, "card.csv", "\ufeffpatch;l;a;b;neutral\nA1;37,54;14,37;14,92;\nD1;95.19;-1.03;2.93;yes\nD2;80;0;0;\n")
	ps, err := ReadPatches(folder.At(dir), "card.csv")
	require.NoError(t, err)
	require.Equal(t, []color.Patch{
		{Name: "A1", Lab: color.Lab{L: 37.54, A: 14.37, B: 14.92}},
		{Name: "D1", Lab: color.Lab{L: 95.19, A: -1.03, B: 2.93}, Neutral: true},
		{Name: "D2", Lab: color.Lab{L: 80}, Neutral: true},
	}, ps)
}

func TestAFileOfPatchesSaysWhatIsWrong(t *testing.T) {
	for text, want := range map[string]string{
		"patch,l,a,b\n":                     "it holds no patch",
		"patch,l,a\nA1,1,2\n":               "there is no column b",
		"patch,l,a,b\nA1,x,0,0\n":           `l of patch A1: "x" is not a number`,
		"patch,l,a,b\nA1,500,0,0\n":         "lab(500 0 0) is not a color",
		"patch,l,a,b\nA1,5,0,0\na1,6,0,0\n": "patch a1 is there twice",
		"patch,l,a,b,neutral\nA1,5,0,0,?\n": "write yes or no",
	} {
		dir := t.TempDir()
		put(t, dir, "card.csv", text)
		_, err := ReadPatches(folder.At(dir), "card.csv")
		require.ErrorContains(t, err, want, text)
	}
}
