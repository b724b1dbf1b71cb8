//go:build e2e && linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"ellwand/plan"
)

// terminal is the built program at a terminal of its own.
type terminal struct {
	t     *testing.T
	side  *os.File // where a person sits
	c     *exec.Cmd
	mu    sync.Mutex
	shown bytes.Buffer
}

func atTerminal(t *testing.T, args ...string) *terminal {
	t.Helper()
	bin := os.Getenv("ELLWAND_BIN")
	if bin == "" {
		t.Fatal("ELLWAND_BIN is empty; accepted is the path of the built program, as scripts/e2e.sh gives it.")
	}
	side, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	ask := func(what uintptr, value *uint32) {
		if _, _, err := syscall.Syscall(syscall.SYS_IOCTL, side.Fd(), what, uintptr(unsafe.Pointer(value))); err != 0 {
			t.Fatal(err)
		}
	}
	var unlocked, number uint32
	ask(syscall.TIOCSPTLCK, &unlocked)
	ask(syscall.TIOCGPTN, &number)
	far, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Fatal(err)
	}
	x := &terminal{t: t, side: side, c: exec.Command(bin, args...)}
	x.c.Stdin, x.c.Stdout, x.c.Stderr = far, far, far
	if err := x.c.Start(); err != nil {
		t.Fatal(err)
	}
	far.Close()
	t.Cleanup(func() { x.c.Process.Kill(); side.Close() }) //nolint:errcheck // it may have ended
	go func() {
		block := make([]byte, 4096)
		for {
			n, err := side.Read(block)
			x.mu.Lock()
			x.shown.Write(block[:n])
			x.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	return x
}

func (x *terminal) text() string {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.shown.String()
}

// until waits for something to stand on the terminal.
func (x *terminal) until(text string) {
	x.t.Helper()
	for end := time.Now().Add(40 * time.Second); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if strings.Contains(x.text(), text) {
			return
		}
	}
	x.t.Fatalf("%q does not appear; on the terminal stands %q", text, x.text())
}

// TestTerminalAsksBeforeItWritesOver changes the plan while a lay is searched
// for, and answers the question that follows in four ways.
func TestTerminalAsksBeforeItWritesOver(t *testing.T) {
	for answer, over := range map[string]bool{"n\n": false, "\n": false, "\x04": false, "y\n": true} {
		t.Run(fmt.Sprintf("%q", answer), func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "tunic.yaml")
			if err := plan.Starter().Save(path); err != nil {
				t.Fatal(err)
			}
			x := atTerminal(t, "lay", path, "--save", "--seconds", "4", "--threads", "1")
			x.until("\x1b[K") // the plan is read, and its lay searched for
			theirs := []byte("# theirs\n")
			if err := os.WriteFile(path, theirs, 0o644); err != nil {
				t.Fatal(err)
			}
			x.until("Write over what is there? [y/N]")
			if is, err := os.ReadFile(path); err != nil || !bytes.Equal(is, theirs) {
				t.Errorf("before the answer the file holds %.40q, %v", is, err)
			}
			if _, err := x.side.WriteString(answer); err != nil {
				t.Fatal(err)
			}
			err := x.c.Wait()
			is, readErr := os.ReadFile(path)
			if readErr != nil {
				t.Fatal(readErr)
			}
			if !over {
				x.until("nothing was saved")
				if err == nil || !bytes.Equal(is, theirs) {
					t.Errorf("it ended with %v; the file holds %.40q", err, is)
				}
				return
			}
			p, loadErr := plan.Load(path)
			if err != nil || loadErr != nil || p.Lay == nil {
				t.Errorf("it ended with %v; the plan: %v", err, loadErr)
			}
			if kept, err := os.ReadFile(path + "~"); err != nil || !bytes.Equal(kept, theirs) {
				t.Errorf("the other program's file is not kept: %.40q, %v", kept, err)
			}
		})
	}
}
