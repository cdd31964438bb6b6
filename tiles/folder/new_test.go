package folder

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A disk that fills up while a wall is made leaves nothing of it, so that it can
// be made again; a folder that somebody had made stays.
func TestMakeLeavesAllOrNothing(t *testing.T) {
	files := map[string][]byte{"wall.yaml": []byte("name: A\n"), "content/a.md": []byte("a"), "tiles/log.csv": []byte("piece\n")}
	for _, there := range []bool{false, true} {
		for fails := range len(files) {
			dir := filepath.Join(t.TempDir(), "wall")
			if there {
				require.NoError(t, os.Mkdir(dir, 0o755))
			}
			poorDrive(t, nil, nil, nil)
			written := 0
			drive.sync = func(*os.File) error {
				if written++; written > fails {
					return syscall.ENOSPC
				}
				return nil
			}
			err := Make(dir, files, Photos)
			require.ErrorContains(t, err, "the disk is full")
			left, err := os.ReadDir(dir)
			assert.Empty(t, left)
			assert.Equal(t, there, err == nil)
			poorDrive(t, nil, nil, nil)
			require.NoError(t, Make(dir, files, Photos))
			assert.Equal(t, "a", get(t, dir, "content/a.md"))
		}
	}
}
