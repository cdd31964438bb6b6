//go:build !linux && !darwin

package folder

// Free is unknown here: what is full says so when it is written to.
func (Folder) Free() (bytes uint64, known bool) { return 0, false }
