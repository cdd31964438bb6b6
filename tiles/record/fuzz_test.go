package record

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/twodip/twodip/tiles"
	"github.com/twodip/twodip/tiles/folder"
)

// Whatever bytes are taken into a log, they are taken whole: read again, the
// log holds the same pieces, and taking them once more changes nothing.
func FuzzAddPieces(f *testing.F) {
	f.Add([]byte("piece,first,second,third,faults\n1,A,B,,crawling\n,=A,'B,C;D,\"x,y\"\n"))
	f.Add([]byte("\xff\xfef\x00i\x00r\x00s\x00t\x00\n\x00A\x00"))
	f.Add([]byte("sep=;\nfirst;date;zone\nA;2026-1-2;1st\n"))
	f.Add([]byte("first\n\"\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		l, err := ReadPieces("form.csv", bytes.NewReader(text), tiles.LogSettings{})
		if err != nil {
			return
		}
		pieces := slices.Collect(l.Each())
		dir := t.TempDir()
		_, err = AddPieces(folder.At(dir), tiles.LogSettings{}, []Incoming{{"form.csv", pieces}}, same)
		if err != nil {
			return // two rows of one name that contradict each other
		}
		again, err := AddPieces(folder.At(dir), tiles.LogSettings{}, []Incoming{{"form.csv", pieces}}, same)
		require.NoError(t, err)
		require.Zero(t, again.New+again.Filled)
	})
}

func FuzzReadBatches(f *testing.F) {
	f.Add([]byte("glaze,batch,mixed,sg\nKM,7,2026-01-01,\"1,45\"\n"))
	f.Add([]byte("glaze;batch;mixed on;sg\nKM;7;14.3.2026;145\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		dir := folderWith(t, BatchesFile, text)
		bs, err := ReadBatches(folder.At(dir), "")
		for _, b := range bs {
			require.True(t, err != nil || b.Glaze != "" && b.Name != "" && len(b.MixedOn) == len("2006-01-02"))
		}
	})
}

func FuzzReadLoads(f *testing.F) {
	f.Add([]byte("load,cones\n12,top 6; middle 6\n"))
	f.Add([]byte("load,date\n12,2026-03-04\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		ls, err := ReadLoads(folder.At(folderWith(t, LoadsFile, text)), "")
		for _, l := range ls {
			require.True(t, err != nil || l.Name != "")
		}
	})
}

func folderWith(t *testing.T, file string, text []byte) string {
	dir := t.TempDir()
	path := filepath.Join(dir, filepath.FromSlash(file))
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, text, 0o644))
	return dir
}
