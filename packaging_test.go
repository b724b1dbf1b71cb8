package main

import (
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// made runs make with some variables and gives what it printed.
func made(t *testing.T, args ...string) string {
	t.Helper()
	c := exec.Command("make", append([]string{"-s"}, args...)...)
	c.Env = append(os.Environ(), "MAKEFLAGS=")
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("make %v: %v\n%s", args, err, out)
	}
	return string(out)
}

func filesBelow(t *testing.T, folder string) map[string]fs.FileMode {
	t.Helper()
	files := map[string]fs.FileMode{}
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			files[strings.TrimPrefix(path, folder)] = info.Mode().Perm()
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func TestInstallPutsEverythingUnderThePrefixAndUninstallTakesItAway(t *testing.T) {
	stage := t.TempDir()
	program := filepath.Join(t.TempDir(), "ellwand")
	if err := os.WriteFile(program, []byte("#!/bin/sh\necho page\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	own := filepath.Join(stage, "opt/e/share/man/man1/another.1")
	if err := os.MkdirAll(filepath.Dir(own), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(own, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	made(t, "install", "BIN="+program, "DESTDIR="+stage, "PREFIX=/opt/e")
	files := filesBelow(t, stage)
	for name, mode := range map[string]fs.FileMode{
		"/opt/e/bin/ellwand":                                   0o755,
		"/opt/e/share/applications/ellwand.desktop":            0o644,
		"/opt/e/share/mime/packages/ellwand.xml":               0o644,
		"/opt/e/share/icons/hicolor/scalable/apps/ellwand.svg": 0o644,
		"/opt/e/share/man/man1/ellwand.1":                      0o644,
		"/opt/e/share/doc/ellwand/licences.txt":                0o644,
	} {
		if files[name] != mode {
			t.Errorf("%s has the mode %v, want %v", name, files[name], mode)
		}
	}
	made(t, "uninstall", "DESTDIR="+stage, "PREFIX=/opt/e")
	if left := filesBelow(t, stage); len(left) != 1 {
		t.Errorf("left are %v; wanted is only what another program put there", left)
	}
}

func TestManualPageNamesEveryCommandAndOption(t *testing.T) {
	code, page, _ := ellwand(t, "--manual")
	page = strings.ReplaceAll(page, `\-`, "-")
	for _, option := range regexp.MustCompile(`--[a-z-]+`).FindAllString(usage, -1) {
		if !strings.Contains(page, option) {
			t.Errorf("the manual page lacks %s", option)
		}
	}
	for name := range jobs() {
		if !strings.Contains(page, ".It Li ellwand "+name+" ") {
			t.Errorf("the manual page lacks the command %s", name)
		}
	}
	if code != exitDone {
		t.Errorf("exit %d", code)
	}
}

// checkedBy runs a checker of the system, where it is installed.
func checkedBy(t *testing.T, name string, args ...string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Logf("%s is not installed here, so it checks nothing; make setup installs it", name)
		return
	}
	if out, err := exec.Command(name, args...).CombinedOutput(); err != nil || len(out) > 0 {
		t.Errorf("%s: %v\n%s", name, err, out)
	}
}

func TestManualPageAndDesktopEntryAreSound(t *testing.T) {
	page := filepath.Join(t.TempDir(), "ellwand.1")
	if err := os.WriteFile(page, []byte(manual()), 0o644); err != nil {
		t.Fatal(err)
	}
	checkedBy(t, "mandoc", "-T", "lint", "-W", "warning", page)
	checkedBy(t, "desktop-file-validate", "assets/desktop/ellwand.desktop")
}

func TestVersionNamesTheBuild(t *testing.T) {
	was := release
	t.Cleanup(func() { release = was })
	release = "1.2.3"
	code, out, _ := ellwand(t, "--version")
	if code != exitDone || !strings.HasPrefix(out, "ellwand 1.2.3 (go") {
		t.Errorf("exit %d: %q", code, out)
	}
}
