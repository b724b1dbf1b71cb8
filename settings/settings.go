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

	"gopkg.in/yaml.v3"

	"ellwand/plan"
)

// Settings are what the user has set for the program, whatever the plan.
type Settings struct {
	Colours  string  `yaml:"colours"`          // "system", "light" or "dark"
	Width    float32 `yaml:"window_width"`     // of the window as last left, in its units; 0: as at first
	Height   float32 `yaml:"window_height"`    // of the window as last left
	Autosave int     `yaml:"autosave_seconds"` // after a change; 0 for none
}

// Defaults are the settings of a user who has set nothing.
func Defaults() Settings { return Settings{Colours: "system", Autosave: 2} }

const mostSettingsBytes = 64 << 10

func (f Folders) settingsFile() string { return filepath.Join(f.Config, "settings.yaml") }

// Load reads the settings; with no file, or one that cannot be read, they are
// the defaults, and the error says why.
func (f Folders) Load() (Settings, error) {
	file, err := os.Open(f.settingsFile())
	if errors.Is(err, fs.ErrNotExist) {
		return Defaults(), nil
	}
	if err != nil {
		return Defaults(), fmt.Errorf("the settings cannot be read: %w", err)
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, mostSettingsBytes))
	if err != nil {
		return Defaults(), fmt.Errorf("the settings cannot be read: %w", err)
	}
	s := Defaults()
	if err := yaml.Unmarshal(data, &s); err != nil {
		return Defaults(), fmt.Errorf("%s is not valid (%s); accepted are the keys colours, window_width, window_height and autosave_seconds", f.settingsFile(), strings.ReplaceAll(err.Error(), "\n", " "))
	}
	return s, s.check(f.settingsFile())
}

// check puts a default in the place of each value that cannot be.
func (s *Settings) check(file string) error {
	var wrong []string
	def := Defaults()
	if !slices.Contains([]string{"system", "light", "dark"}, s.Colours) {
		wrong, s.Colours = append(wrong, fmt.Sprintf("colours is %.40q, accepted is system, light or dark", s.Colours)), def.Colours
	}
	if !(s.Width == 0 && s.Height == 0) && !(s.Width >= 200 && s.Width <= 20000 && s.Height >= 200 && s.Height <= 20000) {
		wrong, s.Width, s.Height = append(wrong, "the window's size is no size from 200 to 20000"), 0, 0
	}
	if s.Autosave < 0 || s.Autosave > 3600 {
		wrong, s.Autosave = append(wrong, fmt.Sprintf("autosave_seconds is %d, accepted is 0 to 3600", s.Autosave)), def.Autosave
	}
	if len(wrong) > 0 {
		return fmt.Errorf("%s: %s", file, strings.Join(wrong, "; "))
	}
	return nil
}

// Save keeps the settings.
func (f Folders) Save(s Settings) error {
	data, err := yaml.Marshal(s)
	if err != nil {
		return fmt.Errorf("the settings cannot be kept: %w", err)
	}
	if err := made(f.Config); err != nil {
		return err
	}
	return plan.WriteFile(f.settingsFile(), func(w io.Writer) error { _, err := w.Write(data); return err })
}
