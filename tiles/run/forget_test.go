package run

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/earlier"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/record"
)

// TestForgetBlanksAMakerEverywhere looks for the maker in every file of the
// wall's folder; nothing else of the log changes, and its versions can be read.
func TestForgetBlanksAMakerEverywhere(t *testing.T) {
	dir := folder.At(t.TempDir() + "/wall")
	require.NoError(t, content.Start(dir.Dir()))
	before := "# ours\npiece,first,maker,note\n1,A,Zqx,\n2,A,  zqx , \"as \"\"it\"\" was\"\n3,A,Other,ask Zqx!\n"
	before = strings.Replace(before, ` "as ""it"" was"`, `"as ""it"" was"`, 1)
	require.NoError(t, dir.WriteBytes(record.LogFile, []byte(before)))
	require.NoError(t, earlier.Keep(dir, time.Now()))
	require.NoError(t, dir.WriteBytes(record.LogFile, []byte(before+"4,A,ZQX,\n")))
	require.NoError(t, dir.WriteBytes(pieceFile("1"), []byte("photo")))
	did, err := Forget(dir, " Zqx")
	require.NoError(t, err)
	assert.Equal(t, []string{"1", "2", "4"}, did.Pieces)
	assert.Len(t, did.Versions, 1)
	assert.Equal(t, []string{"tiles/pieces/1.jpg"}, did.Photos)
	assert.Equal(t, []string{"3"}, did.Notes)
	now, err := os.ReadFile(dir.Path(record.LogFile))
	require.NoError(t, err)
	assert.Equal(t, "# ours\npiece,first,maker,note\n1,A,,\n2,A,,\"as \"\"it\"\" was\"\n3,A,Other,ask Zqx!\n4,A,,\n", string(now))
	versions, err := earlier.List(dir)
	require.NoError(t, err)
	for _, v := range earlier.Of(versions, record.LogFile) {
		data, err := v.Read(dir)
		require.NoError(t, err, "its name still says what it holds")
		assert.False(t, strings.Contains(strings.ToLower(string(data)), ",zqx"))
	}
	did, err = Forget(dir, "Zqx")
	require.NoError(t, err)
	assert.Empty(t, did.Pieces)
	_, err = Forget(dir, "  ")
	assert.Error(t, err)
}
