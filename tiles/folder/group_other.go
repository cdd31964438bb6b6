//go:build !unix

package folder

import (
	"io/fs"
	"os"
)

// keepGroup has nothing to do where a file has no group of its own.
func keepGroup(*os.File, fs.FileInfo) {}
