package plan

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// hardship is a folder in which a plan cannot be saved, made by a process of
// its own in a name space of its own, where it may mount what it likes.
type hardship struct {
	name    string
	prepare func(folder string) error
	says    string
}

func hardships() []hardship {
	return []hardship{
		{"full disk", func(folder string) error { return fill(filepath.Join(folder, "filler")) }, "no room left"},
		{"disk that is read only", func(folder string) error {
			return syscall.Mount("", folder, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, "")
		}, "can only be read"},
		{"file size limit", func(string) error {
			return syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 100, Max: 100})
		}, "no room left"},
		{"folder that is gone", os.RemoveAll, "there is no folder"},
	}
}

// fill writes until the disk has no byte left.
func fill(path string) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	defer f.Close()
	for _, n := range []int{4096, 512, 1} {
		for block := make([]byte, n); err == nil; {
			_, err = f.Write(block)
		}
		if !errors.Is(err, syscall.ENOSPC) {
			return err
		}
		err = nil
	}
	return nil
}

// TestSavingInHardship is the process that TestHardshipsLeaveTheOldPlan starts.
func TestSavingInHardship(t *testing.T) {
	which := os.Getenv("ELLWAND_TEST_HARDSHIP")
	if which == "" {
		t.Skip("run by TestHardshipsLeaveTheOldPlan")
	}
	folder := os.Getenv("ELLWAND_TEST_FOLDER")
	if os.Getenv("ELLWAND_TEST_MOUNT") != "" {
		if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=64k"); err != nil {
			fmt.Println("mount:", err)
			os.Exit(3)
		}
	}
	folder = filepath.Join(folder, "plans")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "tunic.yaml")
	p := Starter()
	if err := p.Save(path); err != nil {
		t.Fatal(err)
	}
	before, stamp := contents(t, path), Stamp{}
	if _, stamp, _ = LoadStamped(path); !stamp.There {
		t.Fatal("not saved at first")
	}
	for _, h := range hardships() {
		if h.name != which {
			continue
		}
		root := folder
		if strings.Contains(which, "disk") {
			root = filepath.Dir(folder)
		}
		if err := h.prepare(root); err != nil {
			t.Fatal(err)
		}
		_, long := savedInTurn()
		for _, err := range []error{long.Save(path), func() error { _, err := long.SaveOver(path, stamp); return err }()} {
			changed, isChanged := errors.AsType[*Changed](err)
			switch {
			case isChanged && changed.Gone && which == "folder that is gone": // asks
			case err == nil || !strings.Contains(err.Error(), h.says) || strings.Contains(err.Error(), "\n"):
				t.Errorf("saving says %v", err)
			}
		}
		if which == "folder that is gone" {
			return
		}
		if contents(t, path) != before {
			t.Error("the old plan is not whole any more")
		}
		if left, _ := filepath.Glob(filepath.Join(folder, ".ellwand-*")); len(left) > 0 {
			t.Errorf("left lying about: %v", left)
		}
	}
}

func TestHardshipsLeaveTheOldPlan(t *testing.T) {
	for _, h := range hardships() {
		t.Run(h.name, func(t *testing.T) {
			run := func(mount bool) ([]byte, error) {
				c := exec.Command(os.Args[0], "-test.run=^TestSavingInHardship$")
				c.Env = append(os.Environ(), "ELLWAND_TEST_HARDSHIP="+h.name, "ELLWAND_TEST_FOLDER="+t.TempDir())
				if mount {
					c.Env = append(c.Env, "ELLWAND_TEST_MOUNT=1")
					c.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
						UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
						GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}}
				}
				return c.CombinedOutput()
			}
			needsMount := strings.Contains(h.name, "disk")
			out, err := run(needsMount)
			if code, ok := errors.AsType[*exec.ExitError](err); needsMount && (err != nil && !ok || ok && code.ExitCode() == 3) {
				t.Skipf("this system lets no test mount a disk of its own (%v %s); the file size limit is tried all the same", err, out)
			}
			if err != nil {
				t.Errorf("%v\n%s", err, out)
			}
		})
	}
}

// TestSavingAsAnother is the process that TestReadOnlyFolder starts, as a user
// who may not write.
func TestSavingAsAnother(t *testing.T) {
	path := os.Getenv("ELLWAND_TEST_AS_ANOTHER")
	if path == "" {
		t.Skip("run by TestFolderThatMayNotBeWritten")
	}
	if err := Starter().Save(path); err == nil || !strings.Contains(err.Error(), "you may not write in the folder") {
		t.Errorf("saving says %v", err)
	}
}

func TestFolderThatMayNotBeWritten(t *testing.T) {
	folder, err := os.MkdirTemp("", "ellwand-read-only-")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "tunic.yaml")
	t.Cleanup(func() { os.Chmod(folder, 0o755); os.RemoveAll(folder) })
	if err := Starter().Save(path); err != nil {
		t.Fatal(err)
	}
	before := contents(t, path)
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	self, err := os.ReadFile(os.Args[0])
	if err != nil {
		t.Fatal(err)
	}
	// The other user need not be able to reach where the test was built.
	program := filepath.Join(os.TempDir(), fmt.Sprintf("ellwand-plan-test-%d", os.Getpid()))
	t.Cleanup(func() { os.Remove(program) })
	if err := os.WriteFile(program, self, 0o755); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(program, "-test.run=^TestSavingAsAnother$")
	c.Env, c.Dir = append(os.Environ(), "ELLWAND_TEST_AS_ANOTHER="+path), os.TempDir()
	if os.Getuid() == 0 { // root may write anywhere
		const nobody = 65534
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	if out, err := c.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	if contents(t, path) != before {
		t.Error("the old plan is not whole any more")
	}
}
