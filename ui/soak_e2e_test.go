//go:build e2e

package ui

import (
	"fmt"
	"image"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"ellwand/plan"
)

// walker uses the real window at random, by mouse and keys alone.
type walker struct {
	*seat
	r      *rand.Rand
	folder string
	home   fyne.Size
	n      int                      // of files written so far
	at     map[string]fyne.Position // of buttons in questions, by text
	plans  []string                 // to be opened
	done   map[string]int
	last   []string // deeds, with when they began
	began  time.Time
}

// TestSoakOfTheRealWindow uses the program for ELLWAND_SOAK as somebody might who
// tries everything, and holds what it takes of memory and goroutines against what
// it took at first. What it holds is told by the program itself.
func TestSoakOfTheRealWindow(t *testing.T) {
	long := soakFor(t)
	every := min(time.Minute, max(long/12, 5*time.Second))
	s := seated(t, "ELLWAND_MEMORY="+every.String())
	seed := uint64(time.Now().UnixNano())
	if text := os.Getenv("ELLWAND_SOAK_SEED"); text != "" {
		var err error
		if seed, err = strconv.ParseUint(text, 10, 64); err != nil {
			t.Fatalf("ELLWAND_SOAK_SEED is %q; accepted is a whole number, as the test tells it", text)
		}
	}
	t.Logf("seed %d, for %v", seed, long)
	h := &walker{seat: s, r: rand.New(rand.NewPCG(seed, 91)), folder: t.TempDir(), home: s.size(), at: map[string]fyne.Position{}, done: map[string]int{}, began: time.Now()}
	h.preparePlans()
	h.learn()
	h.escape()
	atRest := s.picture()
	told := 0
	for until, n := time.Now().Add(long), 1; time.Now().Before(until); n++ {
		h.deed()
		if n%20 == 0 {
			h.answers()
		}
		lines := strings.Split(s.output.String(), "\n")
		for ; told < len(lines)-1; told++ {
			t.Log(lines[told])
		}
		select {
		case err := <-s.ended:
			t.Fatalf("the program ended: %v; done %v\n%s", err, h.done, s.output)
		default:
		}
	}
	t.Logf("done %v", h.done)
	h.settles(atRest)
	h.leave()
	judge(t, readUses(s.output.String()), long)
}

// deed is one thing done at random.
func (h *walker) deed() {
	all := map[string]func(){
		"panel": h.panel, "type": h.typeSomewhere, "scroll": h.scrollPanel, "click strip": h.clickCloth, "drag": h.dragCloth,
		"letters": h.letters, "undo": h.undoRedo, "drawer": h.drawer, "zoom": h.zoom, "pack": h.packSome, "new": h.newOne, "open": h.openOne,
		"export": h.export, "help": h.helpPages, "shapes": h.shapes, "compare": h.compareLays, "menus": h.menus, "order": h.order,
		"resize": h.resizeWindow, "save": h.save, "toolbar": h.toolbar,
	}
	often := []string{"panel", "type", "type", "scroll", "click strip", "drag", "drag", "letters", "undo", "undo", "drawer", "zoom"}
	for name := range all {
		often = append(often, name)
	}
	sort.Strings(often)
	name := often[h.r.IntN(len(often))]
	h.done[name]++
	h.last = append(h.last, fmt.Sprintf("%s at %.1f s", name, time.Since(h.began).Seconds()))
	h.last = h.last[max(0, len(h.last)-40):]
	all[name]()
}

// preparePlans writes the plans that are opened.
func (h *walker) preparePlans() {
	for i, title := range []string{"River tunic", "Weir shift", "Ferry coat"} {
		p := plan.Starter()
		p.Title = title
		p.Cloth.FinishedWidthCM += float64(4 * i)
		path := filepath.Join(h.folder, fmt.Sprintf("plan%d.yaml", i))
		if err := p.Save(path); err != nil {
			h.t.Fatal(err)
		}
		h.plans = append(h.plans, path)
	}
}

// learn finds where the buttons of questions stand.
func (h *walker) learn() {
	v := h.twin
	find := func(name, text string) {
		top := v.Canvas().Overlays().Top()
		for _, o := range test.LaidOutObjects(top) {
			if b, ok := o.(*widget.Button); ok && b.Text == words(text) {
				h.at[name] = h.spot(b).AddXY(b.Size().Width/2, b.Size().Height/2)
			}
		}
		if _, ok := h.at[name]; !ok {
			h.t.Fatalf("there is no button %q", text)
		}
	}
	v.askNew()
	find("cancel new", "Cancel")
	v.Canvas().Overlays().Top().Hide()
	if err := v.b.set("title", "title", "Another"); err != nil {
		h.t.Fatal(err)
	}
	v.leaving("Leave", func() {})
	find("leave", "Leave without saving")
	v.Canvas().Overlays().Top().Hide()
	v.leaving("Quit", func() {})
	find("quit", "Quit without saving")
	v.Canvas().Overlays().Top().Hide()
}

// keys presses keys, quickly.
func (h *walker) keys(keys ...string) {
	h.do(append([]string{"key", "--delay", "25"}, keys...)...)
	time.Sleep(80 * time.Millisecond)
}

func (h *walker) clickAt(at fyne.Position, button int) {
	h.do("mousemove", "--window", h.id, fmt.Sprint(int(at.X)), fmt.Sprint(int(at.Y)), "click", fmt.Sprint(button))
	time.Sleep(80 * time.Millisecond)
}

// within is a random spot of a part of the window.
func (h *walker) within(o fyne.CanvasObject) fyne.Position {
	size := o.Size()
	return h.spot(o).AddXY(4+h.r.Float32()*(size.Width-8), 4+h.r.Float32()*(size.Height-8))
}

// beside is a spot beside every question, where the window itself is bare: behind
// the last button of the tool bar, which stays where it is whatever is shown.
func (h *walker) beside() fyne.Position { return fyne.NewPos(h.home.Width-5, h.menu+20) }

// escape shuts whatever question is open: a click beside it takes the focus from
// its entries, Escape shuts it.
func (h *walker) escape() {
	for range 2 {
		h.clickAt(h.beside(), 1)
		h.keys("Escape", "Escape")
	}
	time.Sleep(100 * time.Millisecond)
}

func (h *walker) panel() {
	b := h.twin.panels.buttons[h.r.IntN(len(h.twin.panels.buttons))]
	h.clickAt(h.spot(b).AddXY(b.Size().Width/2, b.Size().Height/2), 1)
	time.Sleep(150 * time.Millisecond)
}

func (h *walker) oneOf(of ...string) string { return of[h.r.IntN(len(of))] }

func (h *walker) typeSomewhere() {
	h.clickAt(h.within(h.twin.panels.scroll), 1)
	h.keys("ctrl+a")
	h.do("type", "--delay", "20", "--", h.oneOf("60", "171.5", "0.08", "-4", "1e308", "grey", "=1+1", "63 3/4", "ein Webstück", "9"))
	time.Sleep(100 * time.Millisecond)
	h.keys(h.oneOf("Return", "Tab", "Escape", "shift+Tab"))
	h.escape()
}

func (h *walker) scrollPanel() {
	for range 1 + h.r.IntN(8) {
		h.clickAt(h.within(h.twin.panels.scroll), 4+h.r.IntN(2))
	}
}

func (h *walker) clickCloth() { h.clickAt(h.within(h.twin.strip), 1) }

func (h *walker) dragCloth() {
	from, to := h.within(h.twin.strip), h.within(h.twin.strip)
	if h.r.IntN(2) == 0 {
		to = from.AddXY(h.r.Float32()*60-30, h.r.Float32()*40-20)
	}
	h.do("mousemove", "--window", h.id, fmt.Sprint(int(from.X)), fmt.Sprint(int(from.Y)))
	h.do("mousedown", "1")
	for n := float32(1); n <= 6; n++ {
		at := fyne.NewPos(from.X+(to.X-from.X)*n/6, from.Y+(to.Y-from.Y)*n/6)
		h.do("mousemove", "--window", h.id, fmt.Sprint(int(at.X)), fmt.Sprint(int(at.Y)))
		time.Sleep(25 * time.Millisecond)
	}
	h.do("mouseup", "1")
	time.Sleep(100 * time.Millisecond)
}

func (h *walker) letters() {
	h.clickCloth()
	for range 1 + h.r.IntN(4) {
		h.keys(h.oneOf("r", "f", "p", "n", "b", "Left", "Right", "Up", "Down", "shift+Right", "m", "Escape", "ctrl+a"))
	}
}

func (h *walker) undoRedo() {
	for range 1 + h.r.IntN(6) {
		h.keys(h.oneOf("ctrl+z", "ctrl+z", "ctrl+y", "ctrl+shift+z"))
	}
}

func (h *walker) drawer() {
	h.keys("ctrl+" + h.oneOf("1", "2", "3", "4"))
	time.Sleep(300 * time.Millisecond)
	low := h.spot(h.twin.figures.root).AddXY(h.r.Float32()*h.home.Width*0.9+10, -20-h.r.Float32()*150)
	h.clickAt(low, 1)
	h.clickAt(low, 4+h.r.IntN(2))
	h.escape()
}

func (h *walker) zoom() {
	switch h.r.IntN(3) {
	case 0:
		h.keys(h.oneOf("ctrl+equal", "ctrl+minus", "ctrl+0"))
	case 1:
		h.clickAt(h.within(h.twin.strip), 4+h.r.IntN(2))
	default:
		at := h.within(h.twin.strip)
		h.do("mousemove", "--window", h.id, fmt.Sprint(int(at.X)), fmt.Sprint(int(at.Y)), "keydown", "ctrl", "click", fmt.Sprint(4+h.r.IntN(2)), "keyup", "ctrl")
	}
}

func (h *walker) packSome() {
	h.keys("ctrl+l")
	time.Sleep(time.Duration(h.r.IntN(2500)) * time.Millisecond)
	h.keys("ctrl+period")
}

// leaveWork answers, if it is asked, that the work is not to be saved.
func (h *walker) leaveWork() {
	time.Sleep(300 * time.Millisecond)
	h.clickAt(h.at["leave"], 1)
	time.Sleep(400 * time.Millisecond)
}

func (h *walker) newOne() {
	h.keys("Escape", "ctrl+n")
	h.leaveWork()
	h.do("type", "--delay", "20", "--", h.oneOf("Mill", "Lock", "Quay"))
	h.keys("Tab", "Tab", "Tab", "Tab")
	h.do("type", "--delay", "20", "--", h.oneOf("168", "181", "9"))
	h.keys("Tab")
	h.do("type", "--delay", "20", "--", h.oneOf("97", "104", ""))
	h.keys(h.oneOf("Return", "Return", "Escape"))
	time.Sleep(500 * time.Millisecond)
	h.clickAt(h.at["cancel new"], 1)
	h.escape()
}

func (h *walker) openOne() {
	h.keys("Escape", "ctrl+o")
	h.leaveWork()
	h.typeOver(h.plans[h.r.IntN(len(h.plans))])
	time.Sleep(500 * time.Millisecond)
	h.escape()
}

// typeOver puts a path in the place of what an entry holds, and agrees.
func (h *walker) typeOver(path string) {
	h.keys("ctrl+a")
	h.do("type", "--delay", "10", "--", path)
	h.keys("Return")
}

// typeFile answers the question for a file with one that is not there yet.
func (h *walker) typeFile(ending string) string {
	h.n++
	path := filepath.Join(h.folder, fmt.Sprintf("out%d%s", h.n, ending))
	time.Sleep(400 * time.Millisecond)
	h.typeOver(path)
	return path
}

func (h *walker) export() {
	h.keys("ctrl+e")
	time.Sleep(400 * time.Millisecond)
	h.keys("Return")
	path := h.typeFile(".pdf")
	time.Sleep(800 * time.Millisecond)
	h.escape()
	os.Remove(path) //nolint:errcheck // it may not be there
}

func (h *walker) save() {
	switch h.r.IntN(3) {
	case 0:
		h.keys("ctrl+s")
	default:
		h.keys("ctrl+shift+s")
		h.typeFile(".yaml")
		time.Sleep(300 * time.Millisecond)
	}
	h.escape()
}

func (h *walker) helpPages() {
	if h.r.IntN(2) == 0 {
		h.keys("ctrl+h")
		time.Sleep(300 * time.Millisecond)
		h.clickAt(fyne.NewPos(h.home.Width/2, h.home.Height/2), 5)
	} else {
		h.menuOrder("About Ellwand")
		time.Sleep(300 * time.Millisecond)
	}
	h.escape()
}

func (h *walker) shapes() {
	h.keys("ctrl+g")
	time.Sleep(400 * time.Millisecond)
	for range 2 + h.r.IntN(6) {
		at := fyne.NewPos(40+h.r.Float32()*(h.home.Width-80), 90+h.r.Float32()*(h.home.Height-200))
		h.clickAt(at, 1)
		if h.r.IntN(3) == 0 {
			h.do("type", "--delay", "20", "--", h.oneOf("20", "33", "x"))
			h.keys("Return")
		}
	}
	h.escape()
}

func (h *walker) compareLays() {
	h.menuOrder("Keep this lay as " + h.oneOf("A", "B"))
	h.keys("ctrl+k")
	time.Sleep(500 * time.Millisecond)
	h.clickAt(fyne.NewPos(h.home.Width*(0.3+0.4*h.r.Float32()), h.home.Height*(0.3+0.55*h.r.Float32())), 1)
	h.escape()
}

// menus walks through the menus by the arrow keys.
func (h *walker) menus() {
	h.keys("F10")
	for range 3 + h.r.IntN(12) {
		h.keys(h.oneOf("Down", "Down", "Right", "Left", "Up"))
	}
	h.escape()
}

func (h *walker) order() {
	h.menuOrder(h.oneOf("What must move?", "What does piecing save?", "Pick every piece", "Pick none", "Mark a flaw",
		"Ends in line", "Space evenly along the cloth", "To the cut end"))
	time.Sleep(500 * time.Millisecond)
	h.escape()
}

// menuOrder obeys an order by way of the menus.
func (h *walker) menuOrder(text string) {
	for i, m := range h.twin.orderMenus() {
		row := 0
		for _, o := range m.orders {
			if o.do == nil && o.more == nil {
				continue
			}
			if o.text == text {
				h.clickCloth()
				h.keys("ctrl+m")
				time.Sleep(150 * time.Millisecond)
				for range i {
					h.keys("Down")
				}
				h.keys("Right")
				for range row {
					h.keys("Down")
				}
				h.keys("Return")
				return
			}
			row++
		}
	}
	h.t.Fatalf("there is no order %q", text)
}

func (h *walker) resizeWindow() {
	for range 1 + h.r.IntN(3) {
		h.do("windowsize", h.id, fmt.Sprint(900+h.r.IntN(340)), fmt.Sprint(600+h.r.IntN(150)))
		time.Sleep(200 * time.Millisecond)
	}
	h.do("windowsize", h.id, fmt.Sprint(int(h.home.Width)), fmt.Sprint(int(h.home.Height)))
	time.Sleep(200 * time.Millisecond)
}

// toolbar points at buttons until they say what they are, and clicks on some.
func (h *walker) toolbar() {
	h.do("mousemove", "--window", h.id, fmt.Sprint(300+h.r.IntN(300)), fmt.Sprint(int(h.menu)+20))
	time.Sleep(400 * time.Millisecond)
	for _, b := range h.twin.onPiece[:3] {
		h.clickAt(h.spot(b).AddXY(8, 8), 1)
	}
}

// slack is how long the window may take to catch up with all that was done, on a
// machine with much else to do.
const slack = 4 * time.Minute

// wait waits for something, trying for it again every few seconds.
func (h *walker) wait(what string, try func(), done func() bool) {
	h.t.Helper()
	var tried time.Time
	for end := time.Now().Add(slack); time.Now().Before(end); time.Sleep(200 * time.Millisecond) {
		if time.Since(tried) > 6*time.Second {
			try()
			tried = time.Now()
		}
		if done() {
			return
		}
		select {
		case err := <-h.ended:
			h.t.Fatalf("waiting for %s, the program ended: %v\n%s", what, err, h.output)
		default:
		}
	}
	h.keepPicture() // while there is a window
	// Ended so, the program says where every goroutine stands.
	h.process.Signal(syscall.SIGQUIT) //nolint:errcheck // it may have ended by itself
	select {
	case err := <-h.ended:
		h.ended <- err
	case <-time.After(patience):
	}
	h.t.Fatalf("%s did not come about in %v; done %v, last %v\n%s", what, slack, h.done, h.last, h.output)
}

// answers sees that the window has caught up: no question is left open, and it
// shows the page of keys when it is asked to. A question darkens all beside it.
func (h *walker) answers() {
	h.t.Helper()
	ground := lightPalette().ground
	at := h.beside()
	open := func() bool { return !same(h.picture().At(int(at.X), int(at.Y)), ground) }
	asked := false
	h.wait("the page of keys", func() {
		h.escape()
		if !open() {
			h.keys("ctrl+h")
			asked = true
		}
	}, func() bool { return asked && open() })
	h.wait("the window without it", h.escape, func() bool { return !open() })
}

// settles says whether, left alone, the window comes to rest: nothing is packed,
// and the bar that shows packing is gone.
func (h *walker) settles(atRest image.Image) {
	h.t.Helper()
	h.answers()
	bar := h.twin.packOff
	from := h.spot(h.twin.packOn)
	to := h.spot(bar).AddXY(bar.Size().Width+130, bar.Size().Height)
	tries := 0
	h.wait("the rest after all the work", func() {
		// A new plan has a line more above the strip, about what is not yet
		// confirmed, so that all below stands elsewhere.
		if tries%4 == 0 {
			h.openOne()
		}
		tries++
		h.escape()
		h.keys("ctrl+period")
		h.point(h.spot(h.twin.strip).AddXY(40, 40))
	}, func() bool {
		now := h.picture()
		for y := int(from.Y); y < int(to.Y); y++ {
			for x := int(from.X); x < int(to.X); x++ {
				if !same(atRest.At(x, y), now.At(x, y)) {
					return false
				}
			}
		}
		return true
	})
	h.answers()
}

// leave quits without saving, which must end well: without a race, where the
// program was built to look for them.
func (h *walker) leave() {
	h.t.Helper()
	h.keys("ctrl+q")
	time.Sleep(600 * time.Millisecond)
	select {
	case err := <-h.ended:
		h.ended <- err
	default:
		h.clickAt(h.at["quit"], 1)
	}
	select {
	case err := <-h.ended:
		if err != nil {
			h.t.Errorf("the program ended with %v\n%s", err, h.output)
		}
	case <-time.After(patience):
		h.t.Error("the program did not end on Ctrl+Q")
	}
	for _, bad := range []string{"DATA RACE", "panic:"} {
		if strings.Contains(h.output.String(), bad) {
			h.t.Errorf("the program said %s\n%s", bad, h.output)
		}
	}
}

// readMemoryLine is the inverse of memoryUse.line.
func readMemoryLine(line string) (memoryUse, bool) {
	var m memoryUse
	var seconds int
	n, err := fmt.Sscanf(line, "memory after %d s: live %f MB, resident %f MB, goroutines %d\n", &seconds, &m.LiveMB, &m.ResidentMB, &m.Goroutines)
	m.After = time.Duration(seconds) * time.Second
	return m, err == nil && n == 4
}

func readUses(output string) []memoryUse {
	var all []memoryUse
	for _, line := range strings.SplitAfter(output, "\n") {
		if m, ok := readMemoryLine(line); ok {
			all = append(all, m)
		}
	}
	return all
}

// slope is how much a figure grows in an hour, by least squares.
func slope(uses []memoryUse, of func(memoryUse) float64) float64 {
	var n, x, y, xx, xy float64
	for _, m := range uses {
		t, v := m.After.Hours(), of(m)
		n, x, y, xx, xy = n+1, x+t, y+v, xx+t*t, xy+t*v
	}
	if d := n*xx - x*x; d > 0 {
		return (n*xy - x*y) / d
	}
	return 0
}

// judge holds the lows of the last third against those of the middle third: what
// is held once the tool kit has cleared away what it keeps for a minute, which
// takes some minutes to come level.
func judge(t *testing.T, all []memoryUse, long time.Duration) {
	t.Helper()
	if len(all) < 6 {
		t.Fatalf("the program told %d times what it holds; expected are 6 or more", len(all))
	}
	second := all[len(all)/2:]
	for _, figure := range []struct {
		name string
		most float64 // growth of the lows, in MB
		of   func(memoryUse) float64
	}{
		{"live", 8, func(m memoryUse) float64 { return m.LiveMB }},
		{"resident", 40, func(m memoryUse) float64 { return m.ResidentMB }},
	} {
		var values []float64
		for _, m := range all {
			values = append(values, figure.of(m))
		}
		middle, end := troughs(values)
		t.Logf("%s: %.1f MB at first, %.1f at last, %.1f at most; at the lowest %.1f in the middle third, %.1f in the last; over the second half %+.2f MB a minute",
			figure.name, values[0], values[len(values)-1], slices.Max(values), middle, end, slope(second, figure.of)/60)
		if figure.name == "resident" && strings.HasSuffix(os.Getenv("ELLWAND_BIN"), "-race") {
			continue // the race detector's own tables grow with every address seen
		}
		if long >= 10*time.Minute && end > middle+figure.most {
			t.Errorf("%s memory grows: %.1f", figure.name, values)
		}
	}
	first, last := all[0].Goroutines, all[len(all)-1].Goroutines
	t.Logf("goroutines: %d at first, %d at last", first, last)
	if last > first+8 {
		t.Errorf("goroutines grow: %d at first, %d at last", first, last)
	}
}
