//go:build unix

package folder

import (
	"io/fs"
	"os"
	"syscall"
)

// keepGroup gives a file that will replace another its group, where we may: those
// who share the folder go on writing it.
func keepGroup(file *os.File, old fs.FileInfo) {
	if of, ok := old.Sys().(*syscall.Stat_t); ok {
		_ = file.Chown(-1, int(of.Gid))
	}
}
