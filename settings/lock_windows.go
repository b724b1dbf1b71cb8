package settings

import (
	"os"
	"syscall"
)

// lockFile opens a file that no other process can open for as long as this one
// lives or keeps it open; false when another has it already.
func lockFile(path string) (*os.File, bool) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, false
	}
	const shareWithNobody = 0
	h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, shareWithNobody, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	if err != nil {
		return nil, false
	}
	return os.NewFile(uintptr(h), path), true
}
