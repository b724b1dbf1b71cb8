package plan

import (
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"
)

// WriteFile writes a file wholly or not at all: into a temporary file beside
// it, flushed to disk, then renamed. An existing file keeps its permissions,
// and a failed write leaves it untouched.
func WriteFile(path string, write func(io.Writer) error) error {
	return writeFile(path, write, func(string) error { return nil })
}

// writeFile is WriteFile with a last look at what is to be replaced: when ready
// gives an error, nothing is replaced.
func writeFile(path string, write func(io.Writer) error, ready func(path string) error) (err error) {
	mode := fs.FileMode(0o644)
	switch info, statErr := os.Stat(path); {
	case statErr == nil && info.IsDir():
		return fmt.Errorf("%s is a folder; accepted is the name of a file", path)
	case statErr == nil && !info.Mode().IsRegular():
		// Renaming would put a file in the place of a device or a pipe.
		return fmt.Errorf("%s is not a file; accepted is the name of a file", path)
	case statErr == nil:
		mode = info.Mode().Perm()
		// A link stays a link: what it points at is replaced.
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return fmt.Errorf("writing: %w", err)
		}
	case !errors.Is(statErr, fs.ErrNotExist):
		return cannotWrite(path, statErr)
	}
	temp, err := os.CreateTemp(filepath.Dir(path), tempPattern(path))
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
		return cannotWrite(path, err)
	}
	if err = errors.Join(temp.Chmod(mode), temp.Sync()); err != nil {
		return cannotWrite(path, err)
	}
	info, _ := temp.Stat()
	if err = temp.Close(); err != nil {
		return cannotWrite(path, err)
	}
	if err = ready(path); err != nil {
		return err
	}
	if err = os.Rename(temp.Name(), path); err != nil {
		return cannotWrite(path, err)
	}
	syncFolder(filepath.Dir(path))
	if info != nil {
		sweep(path, info.ModTime())
	}
	return nil
}

// tempPattern names temporary files after the one that they are to become, in
// few letters, as that name may be as long as a name can be.
func tempPattern(path string) string {
	h := fnv.New32a()
	io.WriteString(h, filepath.Base(path)) //nolint:errcheck // a hash takes all
	return fmt.Sprintf(".ellwand-%08x-*", h.Sum32())
}

// staleAfter is how old a temporary file is when whoever wrote it is surely gone.
const staleAfter = time.Hour

// sweep takes away what a program killed while writing the same file left.
// now is by the clock of the file system, which may not be this machine's.
func sweep(path string, now time.Time) {
	old, _ := filepath.Glob(filepath.Join(globbed(filepath.Dir(path)), tempPattern(path)))
	for _, name := range old {
		if info, err := os.Lstat(name); err == nil && info.Mode().IsRegular() && now.Sub(info.ModTime()) > staleAfter {
			os.Remove(name) // a later save tries again
		}
	}
}

// globbed is a folder's name as a pattern that fits nothing else.
func globbed(folder string) string {
	out := make([]rune, 0, len(folder))
	for _, r := range folder {
		switch r {
		case '*', '?', '[', '\\':
			if filepath.Separator == '\\' && r == '\\' {
				break
			}
			out = append(out, '[', r, ']')
			continue
		}
		out = append(out, r)
	}
	return string(out)
}

// syncFolder makes a rename last through a loss of power, where the system can.
func syncFolder(folder string) {
	if f, err := os.Open(folder); err == nil {
		f.Sync() //nolint:errcheck // the file itself is whole either way
		f.Close()
	}
}

// cannotWrite says plainly why a file cannot be written.
func cannotWrite(path string, err error) error {
	folder := filepath.Dir(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s cannot be written: there is no folder %s; accepted is a file in a folder that is there", path, folder)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s cannot be written: you may not write in the folder %s; accepted is a file in a folder of your own", path, folder)
	case errors.Is(err, syscall.EROFS):
		return fmt.Errorf("%s cannot be written: the disk of the folder %s can only be read; accepted is a file in a folder of your own", path, folder)
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT), errors.Is(err, syscall.EFBIG):
		return fmt.Errorf("%s cannot be written: there is no room left for it on the disk; what was there is untouched; accepted is a file on a disk with room", path)
	case errors.Is(err, syscall.ENAMETOOLONG):
		return fmt.Errorf("%s cannot be written: the name is too long; accepted is a shorter one", path)
	}
	var at *fs.PathError
	if errors.As(err, &at) {
		err = at.Err
	}
	return fmt.Errorf("%s cannot be written: %w", path, err)
}
