package settings

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ellwand/plan"
)

// mostRecent is how many plans are remembered.
const mostRecent = 10

// mostRecentBytes bounds what is read of the list, which anyone may edit.
const mostRecentBytes = 64 << 10

func (f Folders) recentFile() string { return filepath.Join(f.State, "recent-plans.txt") }

// Recent is the plans used of late, as absolute paths, the last used first.
func (f Folders) Recent() ([]string, error) {
	file, err := os.Open(f.recentFile())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("the list of recent plans cannot be read: %w", err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, mostRecentBytes))
	if err != nil {
		return nil, fmt.Errorf("the list of recent plans cannot be read: %w", err)
	}
	var list []string
	for line := range strings.Lines(string(data)) {
		path := strings.TrimRight(line, "\r\n")
		if filepath.IsAbs(path) && !slices.Contains(list, path) && len(list) < mostRecent {
			list = append(list, path)
		}
	}
	return list, nil
}

// Used puts a plan at the top of the list.
func (f Folders) Used(path string) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return fmt.Errorf("the list of recent plans: %w", err)
	}
	if strings.ContainsAny(path, "\r\n") {
		return nil // a line of the list cannot hold it
	}
	list, err := f.Recent()
	if err != nil {
		return err
	}
	list = slices.DeleteFunc(list, func(p string) bool { return p == path })
	return f.keepRecent(append([]string{path}, list[:min(len(list), mostRecent-1)]...))
}

// ForgetRecent empties the list.
func (f Folders) ForgetRecent() error { return f.keepRecent(nil) }

func (f Folders) keepRecent(list []string) error {
	if err := made(f.State); err != nil {
		return err
	}
	return plan.WriteFile(f.recentFile(), func(w io.Writer) error {
		_, err := io.WriteString(w, strings.Join(append(list, ""), "\n"))
		return err
	})
}
