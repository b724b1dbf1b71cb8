package settings

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

func userWith(vars map[string]string) func(string) string {
	return func(name string) string { return vars[name] }
}

func TestFoldersFollowTheSystemsConvention(t *testing.T) {
	for name, c := range map[string]struct {
		system string
		vars   map[string]string
		want   Folders
	}{
		"XDG by default": {"linux", map[string]string{"HOME": "/home/f"}, Folders{"/home/f/.config/ellwand", "/home/f/.local/state/ellwand"}},
		"XDG set":        {"linux", map[string]string{"HOME": "/home/f", "XDG_CONFIG_HOME": "/c", "XDG_STATE_HOME": "/s"}, Folders{"/c/ellwand", "/s/ellwand"}},
		"relative is ignored": {"freebsd", map[string]string{"HOME": "/home/f", "XDG_CONFIG_HOME": "c", "XDG_STATE_HOME": "./s"},
			Folders{"/home/f/.config/ellwand", "/home/f/.local/state/ellwand"}},
		"without a home": {"linux", map[string]string{"XDG_CONFIG_HOME": "/c", "XDG_STATE_HOME": "/s"}, Folders{"/c/ellwand", "/s/ellwand"}},
		"Windows":        {"windows", map[string]string{"APPDATA": "/a", "LOCALAPPDATA": "/l"}, Folders{"/a/Ellwand", "/l/Ellwand"}},
		"nowhere":        {"linux", nil, Folders{}},
	} {
		got, err := UsersFolders(c.system, userWith(c.vars))
		if got != c.want || (err == nil) != (c.want != Folders{}) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

func testFolders(t *testing.T) Folders {
	return Folders{filepath.Join(t.TempDir(), "config", "ellwand"), filepath.Join(t.TempDir(), "state", "ellwand")}
}

func TestRecentPlansAreFewAndTheLastIsFirst(t *testing.T) {
	f := testFolders(t)
	if list, err := f.Recent(); len(list) != 0 || err != nil {
		t.Fatalf("at first %v, %v", list, err)
	}
	for i := range 14 {
		if err := f.Used(fmt.Sprintf("/plans/%d.yaml", i)); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.Used("/plans/8.yaml"); err != nil {
		t.Fatal(err)
	}
	list, err := f.Recent()
	if err != nil || len(list) != mostRecent || list[0] != "/plans/8.yaml" || list[1] != "/plans/13.yaml" || slices.Contains(list[1:], "/plans/8.yaml") {
		t.Errorf("%v, %v", list, err)
	}
	if info, err := os.Stat(f.State); err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("the folder is %v, %v; wanted is one for its user only", info, err)
	}
	if err := f.ForgetRecent(); err != nil {
		t.Fatal(err)
	}
	if list, _ = f.Recent(); len(list) != 0 {
		t.Errorf("after forgetting %v", list)
	}
}

func TestABrokenListOfRecentPlansIsReadAsFarAsItGoes(t *testing.T) {
	f := testFolders(t)
	if err := made(f.State); err != nil {
		t.Fatal(err)
	}
	text := "relative.yaml\n\n/plans/a.yaml\r\n/plans/a.yaml\n" + strings.Repeat("x", mostRecentBytes)
	if err := os.WriteFile(f.recentFile(), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if list, err := f.Recent(); err != nil || !slices.Equal(list, []string{"/plans/a.yaml"}) {
		t.Errorf("%v, %v", list, err)
	}
}

func TestSettingsAreKeptAndBrokenOnesNamed(t *testing.T) {
	f := testFolders(t)
	if s, err := f.Load(); s != Defaults() || err != nil {
		t.Fatalf("at first %v, %v", s, err)
	}
	want := Settings{Colours: "dark", Width: 900, Height: 700, Autosave: 5}
	if err := f.Save(want); err != nil {
		t.Fatal(err)
	}
	if s, err := f.Load(); s != want || err != nil {
		t.Errorf("%v, %v", s, err)
	}
	for text, says := range map[string]string{
		"colours: pink\n":         `colours is "pink"`,
		"window_width: .nan\n":    "size",
		"autosave_seconds: -4\n":  "autosave_seconds is -4",
		"colours: [\n":            "not valid",
		"window_height: 1e30\n":   "size",
		"autosave_seconds: 1e9\n": "autosave_seconds",
	} {
		if err := os.WriteFile(f.settingsFile(), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if s, err := f.Load(); s != Defaults() || err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v, %v", text, s, err)
		}
	}
}
