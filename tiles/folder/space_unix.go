//go:build linux || darwin

package folder

import "syscall"

// Free is how many bytes of the disk that the wall lies on may still be
// written; false where it does not say.
func (f Folder) Free() (bytes uint64, known bool) {
	var disk syscall.Statfs_t
	if err := syscall.Statfs(f.dir, &disk); err != nil || disk.Blocks == 0 {
		return 0, false
	}
	return disk.Bavail * uint64(disk.Bsize), true
}
