package main

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
)

// everythingBelow lists files, folders and links below a folder.
func everythingBelow(t *testing.T, folder string) []string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(folder, func(path string, _ os.DirEntry, err error) error {
		all = append(all, path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func standIn(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "ellwand")
	if err := os.WriteFile(program, []byte("#!/bin/sh\necho page\n"), 0o755); err != nil {
		t.Fatal(err)
	}
	return program
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// otherType is what another program brings: a file type of its own.
const otherType = `<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="application/x-other"><comment>Other</comment><glob pattern="*.other"/></mime-type>
</mime-info>
`

func TestUninstallLeavesThePrefixAsItWasFound(t *testing.T) {
	if _, err := exec.LookPath("update-mime-database"); err != nil {
		t.Log("update-mime-database is not installed here, so no lists are made that could be left; make setup installs it")
	}
	program := standIn(t)
	for name, before := range map[string]map[string]string{
		"nothing there": {},
		"files of others, without lists": {
			"share/applications/other.desktop": "[Desktop Entry]\nType=Application\nName=Other\nExec=other\n",
			"share/doc/ellwand/my notes.txt":   "mine",
			"share/mime/my-list":               "mine",
		},
	} {
		t.Run(name, func(t *testing.T) {
			prefix := filepath.Join(t.TempDir(), "a prefix")
			if err := os.Mkdir(prefix, 0o755); err != nil {
				t.Fatal(err)
			}
			for file, text := range before {
				put(t, filepath.Join(prefix, file), text)
			}
			was := everythingBelow(t, prefix)
			made(t, "install", "BIN="+program, "PREFIX="+prefix, "DESTDIR=")
			made(t, "install", "BIN="+program, "PREFIX="+prefix, "DESTDIR=") // twice is as once
			if now := everythingBelow(t, prefix); len(now) < len(was)+9 {
				t.Fatalf("installed is only %v", now)
			}
			made(t, "uninstall", "PREFIX="+prefix, "DESTDIR=")
			now := everythingBelow(t, prefix)
			if name != "nothing there" { // a list that another program is in stays
				now = slices.DeleteFunc(now, func(f string) bool { return filepath.Base(f) == "mimeinfo.cache" })
			}
			if !slices.Equal(now, was) {
				t.Errorf("left is\n%v\nfound was\n%v", now, was)
			}
			for file, text := range before {
				if is, err := os.ReadFile(filepath.Join(prefix, file)); err != nil || string(is) != text {
					t.Errorf("%s of another is now %q, %v", file, is, err)
				}
			}
		})
	}
}

// A program installed after this one is in the lists that this one began; they
// stay, with it in them, until it goes too.
func TestUninstallKeepsTheListsThatAnotherProgramIsIn(t *testing.T) {
	update, err := exec.LookPath("update-mime-database")
	if err != nil {
		t.Log("update-mime-database is not installed here, so nothing keeps lists; make setup installs it")
		return
	}
	prefix, program := t.TempDir(), standIn(t)
	made(t, "install", "BIN="+program, "PREFIX="+prefix, "DESTDIR=")
	mime := filepath.Join(prefix, "share", "mime")
	put(t, filepath.Join(mime, "packages", "other.xml"), otherType)
	if out, err := exec.Command(update, mime).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	made(t, "uninstall", "PREFIX="+prefix, "DESTDIR=")
	files := slices.Collect(maps.Keys(filesBelow(t, mime)))
	for _, want := range []string{"/packages/other.xml", "/application/x-other.xml", "/mime.cache"} {
		if !slices.Contains(files, want) {
			t.Errorf("%s is gone; left are %v", want, files)
		}
	}
	if slices.Contains(files, "/application/x-ellwand-plan.xml") || slices.Contains(files, "/packages/ellwand.xml") {
		t.Errorf("this program's file type is still there: %v", files)
	}
}
