//go:build !linux && !darwin

package site

import "errors"

// exchange cannot be done here at one stroke.
func exchange(_, _ string) error { return errors.ErrUnsupported }
