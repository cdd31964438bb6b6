package folder

import (
	"io/fs"
	"os"
)

// mostMade bounds one file of what was made and is handed on.
const mostMade = 256 << 20

// Made is a folder of what was made (the site) as a file system, to be handed
// on as it is; nil where there is none.
func (f Folder) Made(sub string) fs.FS {
	if info, err := os.Stat(f.Path(sub)); err != nil || !info.IsDir() {
		return nil
	}
	return part{f, sub, mostMade}
}
