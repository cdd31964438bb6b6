package site

import "golang.org/x/sys/unix"

// exchange gives two folders each other's name, at one stroke.
func exchange(a, b string) error {
	return unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
}
