//go:build e2e

package ui

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"ellwand/geometry"
	"ellwand/plan"
)

// patience is how long the real window may take for one step on a busy machine.
const patience = 40 * time.Second

// seat is the real window, driven by mouse and keys from outside. A second
// window without a display, of the same size and on the same plan, tells where
// in it everything stands.
type seat struct {
	t      *testing.T
	path   string // the plan the real window works on
	id     string // of the real window, for xdotool
	menu   float32
	twin   *window
	ended  chan error
	output *said

	env     []string // of the program, with folders of its own to keep things in
	state   string   // where it keeps unsaved work
	process *os.Process
	kept    bool // a picture, of a failure
}

// said is what the program has written so far, to be read while it runs.
type said struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (s *said) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *said) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// seated starts the program on a copy of the starter plan, laid beforehand, with
// these environment variables besides.
func seated(t *testing.T, env ...string) *seat {
	t.Helper()
	bin := os.Getenv("ELLWAND_BIN")
	if os.Getenv("DISPLAY") == "" {
		t.Fatal("DISPLAY is empty; this test needs a display with a window manager, as scripts/e2e.sh starts.")
	}
	if bin == "" {
		t.Fatal("ELLWAND_BIN is empty; accepted is the path of the built program.")
	}
	s := &seat{t: t, path: filepath.Join(t.TempDir(), "tunic.yaml"), ended: make(chan error, 1), output: &said{}}
	p := plan.Starter()
	r, err := plan.Work(context.Background(), p, plan.Options{Seed: 1, Threads: 1, Seconds: 1})
	if err != nil {
		t.Fatal(err)
	}
	p.KeepLay(r)
	if err := p.Save(s.path); err != nil {
		t.Fatal(err)
	}
	s.state = t.TempDir()
	s.env = append(os.Environ(), append(env, "ELLWAND_THEME=light", "FYNE_SCALE=1", "XDG_STATE_HOME="+s.state)...)
	for _, name := range []string{"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"} {
		s.env = append(s.env, name+"="+t.TempDir()) // nothing of an earlier run is offered back
	}
	s.start()
	s.learn()
	return s
}

// start starts the program on the plan, and once more after it has ended, and
// waits for its window.
func (s *seat) start() {
	s.t.Helper()
	c := exec.Command(os.Getenv("ELLWAND_BIN"), s.path)
	c.Env, c.Stdout, c.Stderr = s.env, s.output, s.output
	if err := c.Start(); err != nil {
		s.t.Fatal(err)
	}
	s.process = c.Process
	go func() { s.ended <- c.Wait() }()
	s.t.Cleanup(func() {
		c.Process.Kill() //nolint:errcheck // it may have ended by itself
		if s.t.Failed() {
			s.keepPicture()
		}
	})
	s.until("the window", func() bool {
		out, err := exec.Command("xdotool", "search", "--all", "--onlyvisible", "--pid", fmt.Sprint(c.Process.Pid), "--name", "^Ellwand").Output()
		s.id = strings.TrimSpace(string(out))
		return err == nil && s.id != "" && !strings.Contains(s.id, "\n")
	})
	s.do("windowactivate", "--sync", s.id)
}

// learn finds out where things stand in the window.
func (s *seat) learn() {
	s.t.Helper()
	s.twin = twinOf(s.t, s.path, s.size())
	// The menu bar stands above all the rest; how high it is can be seen from
	// where the first button starts.
	first := s.twin.undo
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(first)
	x := int(at.X + first.Size().Width/2)
	disabled := lightPalette().raised
	s.until("the buttons", func() bool {
		m := s.picture()
		for y := 0; y < 100; y++ {
			if same(m.At(x, y), disabled) {
				s.menu = float32(y) - at.Y
				return s.menu > 10
			}
		}
		return false
	})
	s.twin.Resize(s.size().SubtractWidthHeight(0, s.menu))
	cloth := func(c color.Color) bool { return same(c, lightPalette().strip.PieceFills[0]) }
	s.until("the cloth", func() bool { return s.shows(cloth, s.twin.strip) })
}

// twinOf is a window without a display on the same plan.
func twinOf(t *testing.T, path string, size fyne.Size) *window {
	t.Helper()
	p, err := plan.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	test.NewTempApp(t).Settings().SetTheme(newLook("light"))
	l := newLoop(t)
	b := newBench(p, path, func(f func()) { go f() }, func(f func()) { l.queue <- f })
	w := test.NewTempWindow(t, nil)
	v := newWindow(w, b, time.Now)
	w.Resize(size)
	b.begin()
	l.rest(b)
	return v
}

func (s *seat) until(what string, done func() bool) {
	s.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		if done() {
			return
		}
		select {
		case err := <-s.ended:
			s.t.Fatalf("waiting for %s, the program ended: %v\n%s", what, err, s.output)
		default:
		}
	}
	s.t.Fatalf("%s did not come about in %v\n%s", what, patience, s.output)
}

// do runs xdotool.
func (s *seat) do(args ...string) string {
	s.t.Helper()
	out, err := exec.Command("xdotool", args...).CombinedOutput()
	if err != nil {
		s.t.Fatalf("xdotool %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return string(out)
}

func (s *seat) size() fyne.Size {
	s.t.Helper()
	var w, h float32
	for _, line := range strings.Fields(s.do("getwindowgeometry", "--shell", s.id)) {
		fmt.Sscanf(line, "WIDTH=%f", &w)  //nolint:errcheck // other lines stand between
		fmt.Sscanf(line, "HEIGHT=%f", &h) //nolint:errcheck
	}
	if w < 600 || h < 400 {
		s.t.Fatalf("the window is %g × %g; wanted is at least 600 × 400", w, h)
	}
	return fyne.NewSize(w, h)
}

// picture is the window as it stands on the display: the root, cut to it.
func (s *seat) picture() image.Image {
	s.t.Helper()
	out, err := exec.Command("import", "-window", s.id, "png:-").Output()
	if err != nil {
		s.t.Fatalf("no picture of the window: %v", err)
	}
	m, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		s.t.Fatal(err)
	}
	return m
}

// keepPicture leaves the whole display, as it is when it is first called, where it
// can be looked at afterwards.
func (s *seat) keepPicture() {
	if s.kept {
		return
	}
	s.kept = true
	to := filepath.Join(os.TempDir(), "ellwand-window.png")
	if exec.Command("import", "-window", "root", to).Run() == nil {
		s.t.Logf("the display, as it was when the test failed, is in %s", to)
	}
}

func same(a, b color.Color) bool {
	r, g, bl, _ := a.RGBA()
	r2, g2, b2, _ := b.RGBA()
	near := func(x, y uint32) bool { return math.Abs(float64(x)-float64(y)) < 3*257 }
	return near(r, r2) && near(g, g2) && near(bl, b2)
}

// reddish says whether a pixel is of madder red writing, whose thin strokes are
// nowhere of the full colour.
func reddish(c color.Color) bool {
	r, g, b, _ := c.RGBA()
	return r > g+60*257 && r > b+60*257
}

// shows says whether such a colour stands somewhere in a part of the window.
func (s *seat) shows(such func(color.Color) bool, part fyne.CanvasObject) bool {
	m, n, at, size := s.picture(), 0, s.spot(part), part.Size()
	for y := int(at.Y); y < int(at.Y+size.Height); y++ {
		for x := int(at.X); x < int(at.X+size.Width); x++ {
			if such(m.At(x, y)) {
				n++
			}
		}
	}
	return n > 20
}

// spot is where an object's corner stands in the real window.
func (s *seat) spot(o fyne.CanvasObject) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).AddXY(0, s.menu)
}

func (s *seat) point(at fyne.Position) {
	s.t.Helper()
	s.do("mousemove", "--window", s.id, fmt.Sprint(int(at.X)), fmt.Sprint(int(at.Y)))
	time.Sleep(60 * time.Millisecond)
}

func (s *seat) click(o fyne.CanvasObject) {
	s.t.Helper()
	s.point(s.spot(o).AddXY(o.Size().Width/2, o.Size().Height/2))
	s.do("click", "1")
	time.Sleep(300 * time.Millisecond)
}

// open clicks on the button of a panel.
func (s *seat) open(panel string) {
	s.t.Helper()
	for i, p := range s.twin.panels.all {
		if p.name == panel {
			s.click(s.twin.panels.buttons[i])
			s.twin.panels.open(i)
			return
		}
	}
	s.t.Fatalf("there is no panel %s", panel)
}

// enter types a text into a field of the open panel, in place of what is there.
func (s *seat) enter(path, text string) {
	s.t.Helper()
	s.click(fieldAt(s.t, s.twin, path).entry)
	s.key("ctrl+a")
	s.do("type", "--delay", "40", "--", text)
	s.key("Return")
}

func (s *seat) key(keys ...string) {
	s.t.Helper()
	for _, k := range keys {
		s.do("key", k)
		time.Sleep(250 * time.Millisecond)
	}
}

// drag carries a piece by so many units of the window.
func (s *seat) drag(id string, dx, dy float32) {
	s.t.Helper()
	i := find(s.t, s.twin.b, id)
	at := s.twin.strip.onView(s.middle(i))
	at = at.Add(s.spot(s.twin.strip))
	s.point(at)
	s.do("mousedown", "1")
	const steps = 12
	for n := 1; n <= steps; n++ {
		s.point(at.AddXY(dx*float32(n)/steps, dy*float32(n)/steps))
	}
	s.do("mouseup", "1")
	time.Sleep(400 * time.Millisecond)
}

func (s *seat) middle(i int) geometry.Point {
	return s.twin.strip.pieces[i].Cut.Centroid()
}

// saved is the plan in the file, once it is as wanted.
func (s *seat) saved(what string, wanted func(p *plan.Plan) bool) *plan.Plan {
	s.t.Helper()
	written := func() time.Time {
		info, err := os.Stat(s.path)
		if err != nil {
			s.t.Fatal(err)
		}
		return info.ModTime()
	}
	earlier, pressed := written(), time.Now()
	s.key("ctrl+s")
	var p *plan.Plan
	s.until(what+" in the saved plan", func() bool {
		if time.Since(pressed) > 3*time.Second { // what is waited for came about after the save
			pressed = time.Now()
			s.key("ctrl+s")
		}
		if !written().After(earlier) {
			return false
		}
		var err error
		if p, err = plan.Load(s.path); err != nil {
			s.t.Fatalf("the saved plan does not load: %v", err)
		}
		return wanted(p)
	})
	return p
}

func lies(t *testing.T, p *plan.Plan, id string) (x, y float64) {
	t.Helper()
	if p.Lay != nil {
		for _, at := range p.Lay.Placements {
			if at.ID == id {
				return at.X, at.Y
			}
		}
	}
	t.Fatalf("the saved plan does not say where %s lies", id)
	return 0, 0
}

// differ counts the pixels that differ between two pictures of the strip.
func (s *seat) differ(a, b image.Image) int {
	at, size, n := s.spot(s.twin.strip), s.twin.strip.Size(), 0
	for y := int(at.Y); y < int(at.Y+size.Height); y++ {
		for x := int(at.X); x < int(at.X+size.Width); x++ {
			if !same(a.At(x, y), b.At(x, y)) {
				n++
			}
		}
	}
	return n
}

// TestWindowFromMouseAndKeys types a number, then a wrong one, drags a piece,
// takes that back, saves, and leaves: all from outside the program.
func TestWindowFromMouseAndKeys(t *testing.T) {
	s := seated(t)

	s.open("Loom")
	s.enter("loom.waste_cm", "75")
	s.saved("the loom waste typed", func(p *plan.Plan) bool { return p.Loom.WasteCM == 75 })

	s.enter("loom.waste_cm", "-3")
	red := func() bool { return s.shows(reddish, s.twin.panels.scroll) }
	s.until("the sentence beside the wrong number", red)
	before := s.saved("the number from before the wrong one", func(p *plan.Plan) bool { return p.Loom.WasteCM == 75 })
	s.key("Escape")
	s.until("the sentence gone", func() bool { return !red() })

	const id = "sleeve/1"
	x0, y0 := lies(t, before, id)
	s.drag(id, 0, 0) // a click, which picks it and takes the keys to the strip
	clean := s.picture()
	s.drag(id, 35, 12)
	if n := s.differ(clean, s.picture()); n < 500 {
		t.Errorf("after the drag %d pixels of the strip have changed; expected 500 or more", n)
	}
	s.saved("the piece moved", func(p *plan.Plan) bool {
		x, y := lies(t, p, id)
		return math.Hypot(x-x0, y-y0) > 5
	})
	s.key("ctrl+z")
	after := s.saved("the piece back", func(p *plan.Plan) bool {
		x, y := lies(t, p, id)
		return x == x0 && y == y0
	})
	if after.Loom.WasteCM != 75 {
		t.Errorf("undoing the move left the loom waste at %g cm; want 75", after.Loom.WasteCM)
	}

	s.key("ctrl+q")
	select {
	case err := <-s.ended:
		if err != nil {
			t.Errorf("the program ended with %v\n%s", err, s.output)
		}
	case <-time.After(patience):
		t.Errorf("the program did not end on Ctrl+Q")
	}
}
