package site

import "golang.org/x/sys/unix"

// exchange gives two folders each other's name, at one stroke.
func exchange(a, b string) error { return unix.RenamexNp(a, b, unix.RENAME_SWAP) }
