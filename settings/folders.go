// Package settings is what the program keeps for its user beside the plans:
// settings, the plans used of late, and recovery files of work not yet saved.
// It knows nothing of what a plan holds, and nothing of widgets.
package settings

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// Folders are where the program keeps its own files.
type Folders struct {
	Config string // settings
	State  string // plans used of late, recovery files
}

// UsersFolders are the folders by the system's convention: on Unix those of the
// XDG Base Directory Specification, with $XDG_CONFIG_HOME and $XDG_STATE_HOME
// (a relative path is ignored, as it asks); on Windows and macOS the system's
// own. Nothing is made.
func UsersFolders(system string, getenv func(string) string) (Folders, error) {
	home := getenv("HOME")
	switch system {
	case "windows":
		config, state := getenv("APPDATA"), getenv("LOCALAPPDATA")
		if config == "" || state == "" {
			return Folders{}, errors.New("APPDATA or LOCALAPPDATA is empty, so there is no folder for settings")
		}
		return Folders{filepath.Join(config, "Ellwand"), filepath.Join(state, "Ellwand")}, nil
	case "darwin":
		if home == "" {
			return Folders{}, errors.New("HOME is empty, so there is no folder for settings")
		}
		folder := filepath.Join(home, "Library", "Application Support", "Ellwand")
		return Folders{folder, folder}, nil
	}
	at := func(name string, byDefault ...string) (string, error) {
		if base := getenv(name); filepath.IsAbs(base) {
			return filepath.Join(base, "ellwand"), nil
		}
		if home == "" {
			return "", fmt.Errorf("%s and HOME are empty, so there is no folder for settings", name)
		}
		return filepath.Join(append([]string{home}, append(byDefault, "ellwand")...)...), nil
	}
	config, err := at("XDG_CONFIG_HOME", ".config")
	if err != nil {
		return Folders{}, err
	}
	state, err := at("XDG_STATE_HOME", ".local", "state")
	return Folders{config, state}, err
}

// made makes a folder that only the user may read, as the specification asks.
func made(folder string) error {
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return fmt.Errorf("the folder %s cannot be made: %w", folder, err)
	}
	return nil
}
