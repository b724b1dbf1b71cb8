package plan

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteFile writes a file wholly or not at all: into a temporary file beside
// it, flushed to disk, then renamed. An existing file keeps its permissions,
// and a failed write leaves it untouched.
func WriteFile(path string, write func(io.Writer) error) (err error) {
	mode := fs.FileMode(0o644)
	switch info, statErr := os.Stat(path); {
	case statErr == nil && info.IsDir():
		return fmt.Errorf("%s is a folder; accepted is the name of a file", path)
	case statErr == nil:
		mode = info.Mode().Perm()
		// A link stays a link: what it points at is replaced.
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return fmt.Errorf("writing: %w", err)
		}
	case !errors.Is(statErr, fs.ErrNotExist):
		return fmt.Errorf("writing: %w", statErr)
	}
	temp, err := os.CreateTemp(filepath.Dir(path), ".ellwand-*")
	if err != nil {
		return cannotWrite(path, err)
	}
	defer func() {
		if err != nil {
			temp.Close()
			os.Remove(temp.Name())
		}
	}()
	if err = write(temp); err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	if err = errors.Join(temp.Chmod(mode), temp.Sync(), temp.Close()); err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	if err = os.Rename(temp.Name(), path); err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	return nil
}

// cannotWrite says plainly why no file can be made in a folder.
func cannotWrite(path string, err error) error {
	folder := filepath.Dir(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s cannot be written: there is no folder %s; accepted is a file in a folder that is there", path, folder)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s cannot be written: you may not write in the folder %s; accepted is a file in a folder of your own", path, folder)
	}
	return fmt.Errorf("%s cannot be written: %w", path, err)
}
