//go:build e2e && linux

package ui

import (
	"bytes"
	"image/color"
	"math"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"ellwand/plan"
)

// typeWaste changes the plan in the window: the loom's waste.
func (s *seat) typeWaste(cm string) {
	s.t.Helper()
	s.open("Loom")
	s.enter("loom.waste_cm", cm)
	s.until("the mark of unsaved work", s.unsaved)
}

// unsaved is whether the window's title bears the star of unsaved work.
func (s *seat) unsaved() bool {
	return strings.HasSuffix(strings.TrimSpace(s.do("getwindowname", s.id)), "*")
}

// answer presses the nth button of the question that is open, from 1, by keys
// alone.
func (s *seat) answer(button int) {
	s.t.Helper()
	for range button {
		s.key("Tab")
	}
	s.key("space")
	time.Sleep(500 * time.Millisecond)
}

// asked presses keys that make the window ask something, and waits till it does:
// behind a question the window is darkened.
func (s *seat) asked(keys string) {
	s.t.Helper()
	before := s.picture()
	s.key(keys)
	s.until("a question", func() bool { return s.differ(before, s.picture()) > 20_000 })
}

// darkened is whether a question lies over the window: its colours are not those
// of the cloth, though there is something in it.
func (s *seat) darkened() bool {
	corner := s.picture().At(2, 2)
	something := func(c color.Color) bool { return !same(c, corner) }
	cloth := func(c color.Color) bool { return same(c, lightPalette().strip.PieceFills[0]) }
	return s.shows(something, s.twin.strip) && !s.shows(cloth, s.twin.strip)
}

// waste is the loom's waste in a plan file.
func waste(t *testing.T, path string) float64 {
	t.Helper()
	p, err := plan.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return p.Loom.WasteCM
}

// byAnother changes the plan's file as another program would.
func (s *seat) byAnother(cm float64) []byte {
	s.t.Helper()
	p, err := plan.Load(s.path)
	if err != nil {
		s.t.Fatal(err)
	}
	p.Loom.WasteCM = cm
	if err := p.Save(s.path); err != nil {
		s.t.Fatal(err)
	}
	return s.file()
}

func (s *seat) file() []byte {
	s.t.Helper()
	data, err := os.ReadFile(s.path)
	if err != nil {
		s.t.Fatal(err)
	}
	return data
}

// left waits for the program to end by itself.
func (s *seat) left() {
	s.t.Helper()
	select {
	case err := <-s.ended:
		if err != nil {
			s.t.Errorf("the program ended with %v\n%s", err, s.output)
		}
	case <-time.After(patience):
		s.t.Fatal("the program did not end")
	}
}

func TestWindowAsksWhenAnotherProgramChangedThePlan(t *testing.T) {
	s := seated(t)
	s.typeWaste("75")
	theirs := s.byAnother(61)
	s.asked("ctrl+s")
	if !bytes.Equal(s.file(), theirs) {
		t.Fatal("the file was written over before the question was answered")
	}
	const cancel, openTheirs, over = 1, 2, 3
	s.answer(cancel)
	if !bytes.Equal(s.file(), theirs) || !s.unsaved() {
		t.Errorf("after Cancel the file is as the other program left it: %t; the work is unsaved: %t", bytes.Equal(s.file(), theirs), s.unsaved())
	}
	s.asked("ctrl+s")
	s.answer(openTheirs)
	s.until("the other program's plan", func() bool { return !s.unsaved() })
	if !bytes.Equal(s.file(), theirs) {
		t.Error("opening what is there changed it")
	}
	if p := s.saved("what is there, in the window", func(*plan.Plan) bool { return true }); p.Loom.WasteCM != 61 {
		t.Errorf("the window holds a waste of %g cm, want the other program's 61", p.Loom.WasteCM)
	}

	s.typeWaste("82")
	theirs = s.byAnother(63)
	s.asked("ctrl+s")
	s.answer(over)
	s.until("the plan written over", func() bool { return !s.unsaved() })
	if got := waste(t, s.path); got != 82 {
		t.Errorf("written over, the file holds a waste of %g cm, want 82", got)
	}
	if kept, err := os.ReadFile(s.path + "~"); err != nil || !bytes.Equal(kept, theirs) {
		t.Errorf("the other program's plan is not kept beside it: %v", err)
	}
}

// recovered are the plans in the recovery folder, with their waste.
func (s *seat) recovered() map[string]float64 {
	s.t.Helper()
	files, err := filepath.Glob(filepath.Join(s.state, "ellwand", "recovery", "*.yaml"))
	if err != nil {
		s.t.Fatal(err)
	}
	all := map[string]float64{}
	for _, f := range files {
		if p, err := plan.Load(f); err == nil {
			all[f] = p.Loom.WasteCM
		}
	}
	return all
}

func TestWindowKilledOffersItsUnsavedWork(t *testing.T) {
	s := seated(t)
	before := s.file()
	s.typeWaste("75")
	s.until("the recovery file", func() bool {
		for _, cm := range s.recovered() {
			if cm == 75 {
				return true
			}
		}
		return false
	})
	if err := s.process.Signal(syscall.SIGKILL); err != nil {
		t.Fatal(err)
	}
	if err := <-s.ended; err == nil {
		t.Fatal("killed, the program ended well")
	}
	if !bytes.Equal(s.file(), before) {
		t.Error("the plan's own file was changed before it was saved")
	}

	s.start()
	const open = 3
	s.until("the offer", s.darkened)
	s.answer(open)
	s.until("the work, unsaved as it was", s.unsaved)
	if p := s.saved("the work taken up again", func(*plan.Plan) bool { return true }); p.Loom.WasteCM != 75 {
		t.Errorf("taken up again, the waste is %g cm, want 75", p.Loom.WasteCM)
	}
	s.key("ctrl+q")
	s.left()
	if left := s.recovered(); len(left) > 0 {
		t.Errorf("after all is saved there are recovery files: %v", left)
	}
}

func TestWindowAsksBeforeUnsavedWorkIsLeft(t *testing.T) {
	s := seated(t)
	before := s.file()
	const cancel, leave, save = 1, 2, 3
	s.typeWaste("75")
	s.asked("ctrl+q")
	s.answer(cancel)
	if !s.unsaved() {
		t.Error("Cancel gave up the work")
	}
	s.asked("alt+F4") // the window manager's way to close a window
	s.answer(leave)
	s.left()
	if !bytes.Equal(s.file(), before) {
		t.Error("the plan was saved though it was not to be")
	}

	s.start()
	s.learn()
	s.typeWaste("76")
	s.asked("alt+F4")
	s.answer(save)
	s.left()
	if got := waste(t, s.path); got != 76 {
		t.Errorf("saved on leaving, the waste is %g cm, want 76", got)
	}
	if left := s.recovered(); len(left) > 0 {
		t.Errorf("there are recovery files: %v", left)
	}
}

func TestWindowKeepsTheWorkWhenItCannotBeSaved(t *testing.T) {
	s := seated(t)
	before := s.file()
	folder := filepath.Dir(s.path)
	for _, hardship := range []struct {
		name      string
		cm        string
		shut      int // the button that goes back to the work
		make, end func()
	}{
		{"no room left", "75", 1, func() { s.room(100) }, func() { s.room(math.MaxUint64) }},
		{"a folder that is gone", "76", 1, func() { renamed(t, folder, folder+"-away") }, func() { renamed(t, folder+"-away", folder) }},
	} {
		t.Logf("%s", hardship.name)
		s.typeWaste(hardship.cm)
		hardship.make()
		s.asked("ctrl+s")
		s.answer(hardship.shut)
		if !s.unsaved() {
			t.Errorf("%s: the work counts as saved", hardship.name)
		}
		hardship.end()
		if !bytes.Equal(s.file(), before) {
			t.Errorf("%s: the file has changed", hardship.name)
		}
		s.saved("the work, with the hardship over", func(p *plan.Plan) bool { return plan.GetField(p, "loom.waste_cm") == hardship.cm })
		before = s.file()
	}
}

// room limits how large a file of the program may grow, which it meets as it
// would a full disk, or lifts that limit again.
func (s *seat) room(most uint64) {
	s.t.Helper()
	limit := syscall.Rlimit{Cur: most, Max: math.MaxUint64}
	_, _, err := syscall.RawSyscall6(syscall.SYS_PRLIMIT64, uintptr(s.process.Pid), syscall.RLIMIT_FSIZE, uintptr(unsafe.Pointer(&limit)), 0, 0, 0)
	if err != 0 {
		s.t.Fatal(err)
	}
}

func renamed(t *testing.T, from, to string) {
	t.Helper()
	if err := os.Rename(from, to); err != nil {
		t.Fatal(err)
	}
}
