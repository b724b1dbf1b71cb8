//go:build unix

package settings

import (
	"os"
	"syscall"
)

// lockFile opens a file and locks it for as long as this process lives or keeps
// it open; false when another process, or this one, has it already.
func lockFile(path string) (*os.File, bool) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, false
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		return nil, false
	}
	// Whoever had it before may have taken it away between the two.
	now, err := os.Stat(path)
	if mine, err2 := f.Stat(); err != nil || err2 != nil || !os.SameFile(now, mine) {
		f.Close()
		return nil, false
	}
	return f, true
}
